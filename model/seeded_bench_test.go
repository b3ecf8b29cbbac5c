package model

import (
	"context"
	"testing"
	"time"

	"brightset/model/seeded"
	"brightset/solver"
)

// benchmarkLimit ends a solve that takes too long to be worth repeating.
const benchmarkLimit = 30 * time.Second

// BenchmarkFamilies solves seed 1 of every family of the race to the proof: the
// program is made once, so that the solver alone is timed.
func BenchmarkFamilies(b *testing.B) {
	for _, f := range seeded.Families {
		b.Run(f.Name, func(b *testing.B) {
			p := Compile(seeded.Job(f, 1), Options{FixedLimits: true})
			nodes := 0
			for b.Loop() {
				s, err := solver.New(p.Problem)
				if err != nil {
					b.Fatal(err)
				}
				res, err := s.Solve(context.Background(), solver.Change{}, solver.Settings{TimeLimit: benchmarkLimit})
				if err != nil {
					b.Fatal(err)
				}
				if res.Status != solver.Optimal {
					b.Skipf("%v after %v, %d nodes", res.Status, benchmarkLimit, res.Nodes)
				}
				nodes = res.Nodes
			}
			b.ReportMetric(float64(nodes), "nodes")
		})
	}
}
