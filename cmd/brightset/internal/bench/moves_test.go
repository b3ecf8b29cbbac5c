package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/solver"
)

// move is what a slider is answered.
func move(t *testing.T, s *Server, query string) (p point) {
	t.Helper()
	w := get(s.Handler(), "/what-if.json?"+query)
	if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
		t.Fatal(query, w.Code, w.Body)
	}
	return p
}

// TestMoveDoesNotWait: a move of a slider is answered while something that takes long is being worked out.
func TestMoveDoesNotWait(t *testing.T) {
	s, _ := server(demo(t), "", "")
	st := loaded(t, s)
	if _, err := s.plan(t.Context(), st); err != nil {
		t.Fatal(err)
	}
	begun, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		asking(t.Context(), &s.answers, st, question{"slow", 0}, patience, func(ctx context.Context) (int, error) {
			close(begun)
			<-ctx.Done()
			return 0, nil
		})
	}()
	<-begun
	if p := move(t, s, "days=90"); p.Status != "optimal" {
		t.Errorf("%+v", p)
	}
	select {
	case <-ended:
		t.Error("the move waits for what takes long")
	default:
	}
}

// TestMeansAreTheCurve: what is said of a mean is what the curve says of it, the budget lifted.
func TestMeansAreTheCurve(t *testing.T) {
	s, _ := server(demo(t), "", "")
	st := loaded(t, s)
	c, err := ask.Frontier(t.Context(), st, curveStep, solver.Settings{})
	if err != nil || !c.Whole {
		t.Fatal(err)
	}
	over, none := 0, 0
	for mean := 82; mean <= 96; mean++ {
		p := move(t, s, fmt.Sprintf("mean=%d&lifted=1", mean))
		at := c.First(catalog.Centi(mean * 100))
		if at < 0 {
			if none++; p.Status != "infeasible" {
				t.Errorf("mean %d: %+v, though the curve ends before", mean, p)
			}
			continue
		}
		want := c.Points[at]
		if p.Expected > want.Plan.Expected {
			t.Errorf("mean %d: %d, on the curve %d", mean, p.Expected, want.Plan.Expected)
		}
		if strings.HasSuffix(p.Line, ", over budget") {
			over++
		}
		if p.Expected == want.Plan.Expected && strings.HasSuffix(p.Line, ", over budget") == want.Within {
			t.Errorf("mean %d: %q, within the budget %v", mean, p.Line, want.Within)
		}
	}
	if over == 0 || none == 0 {
		t.Errorf("%d means over the budget, %d that nothing reaches", over, none)
	}
}

// TestMeansAround: the nearest means come first, and none twice.
func TestMeansAround(t *testing.T) {
	s, _ := server(demo(t), "", "")
	p, err := s.plan(t.Context(), loaded(t, s))
	if err != nil {
		t.Fatal(err)
	}
	order := make([]string, 11)
	for _, row := range meansAround(p) { // the plan is at 85.7
		order[row.Far] = row.Mean
	}
	if got := strings.Join(order, " "); got != " 87 83 89 81 91 79 93 77 95 75" {
		t.Error(got)
	}
	if text := get(s.Handler(), "/what-if").Body.String(); strings.Count(text, ">not known yet<") != 10 {
		t.Error("what is not known is not told")
	}
}
