package risk

import (
	"context"
	"math"
	"testing"

	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
)

// TestRiskOutOfTime: what is told by coarse steps says so, and is off by no more than it says.
func TestRiskOutOfTime(t *testing.T) {
	st := jobs.DemoState(t)
	plan := solved.Cheapest(t, st)
	coarse, exact := RiskOf(jobs.OutOfTime(t), plan), RiskOf(context.Background(), plan)
	if !coarse.Coarse || exact.Coarse {
		t.Fatalf("coarse: %v out of time, %v else", coarse.Coarse, exact.Coarse)
	}
	for _, d := range [][2]*Distribution{{coarse.Total, exact.Total}, {coarse.Cash, exact.Cash},
		{coarse.grade, exact.grade}} {
		off := float64(d[0].Off + d[1].Off)
		if got := math.Abs(d[0].Mean() - d[1].Mean()); got > off {
			t.Errorf("the mean is off by %v, said to be by %v at most", got, off)
		}
		for q := 0.05; q < 1; q += 0.05 {
			if got := math.Abs(float64(d[0].Quantile(q) - d[1].Quantile(q))); got > off {
				t.Errorf("the sum at %.2f is off by %v, said to be by %v at most", q, got, off)
			}
		}
	}
}
