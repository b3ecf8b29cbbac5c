package solver

import (
	"strings"
	"testing"
)

// plainProblem has one group of two columns, a row, and a switch with a minimum.
func plainProblem() *Problem {
	return &Problem{
		Rows:     []Row{{Name: "row", Limit: 10}, {Name: "charges", Limit: 1000, Charges: true}},
		Switches: []Switch{{Name: "switch", Fixed: 5, Minimum: 7}},
		Groups: []Group{
			{Columns: []Column{{Cost: 1, Terms: []Term{{0, 3}}, Needs: []int{0}, Loads: []Load{{0, 2}}}, {Cost: 4}}},
			{Columns: []Column{{Cost: 2}, {Cost: 3, Needs: []int{0}, Loads: []Load{{0, 2}}}}},
		},
	}
}

// TestSumsRefused: a problem of which a sum can exceed 2^53 is refused, and one that
// just reaches it is not.
func TestSumsRefused(t *testing.T) {
	for name, set := range map[string]func(p *Problem, v int64){
		"costs": func(p *Problem, v int64) {
			p.Groups[0].Columns[1].Cost, p.Groups[1].Columns[0].Cost = v/2, -(v - v/2 - 5 - 7)
		},
		"charges": func(p *Problem, v int64) { p.Switches[0].Fixed = v - 7 - 4 - 3 },
		"a row":   func(p *Problem, v int64) { p.Groups[1].Columns[0].Terms = []Term{{0, 3 - v}} },
		"loads":   func(p *Problem, v int64) { p.Groups[0].Columns[0].Loads[0].Amount = v - 2 },
		"ties": func(p *Problem, v int64) {
			p.Groups[0].Columns[0].Tie[1], p.Groups[1].Columns[0].Tie[1] = v/2, v/2-v
		},
		"a limit":       func(p *Problem, v int64) { p.Rows[0].Limit = v },
		"another limit": func(p *Problem, v int64) { p.Rows[0].Limit = -v },
	} {
		p := plainProblem()
		if set(p, Limit); refusal(p) != nil {
			t.Errorf("%s: %v", name, refusal(p))
		}
		if set(p, Limit+1); refusal(p) == nil {
			t.Errorf("%s: a sum of 2^53+1 is let in", name)
		}
	}
}

// TestChangeSumsRefused: so is a change that makes such a problem.
func TestChangeSumsRefused(t *testing.T) {
	for name, change := range map[string]func(v int64) Change{
		"a cost":       func(v int64) Change { return Change{Costs: []CostTo{{Pick{0, 0}, v - 5 - 7 - 3}}} },
		"a lower cost": func(v int64) Change { return Change{Costs: []CostTo{{Pick{0, 0}, 5 + 7 + 3 - v}}} },
		"a charge":     func(v int64) Change { return Change{Fixed: []FixedTo{{0, v - 7 - 4 - 3}}} },
		"a lower one":  func(v int64) Change { return Change{Fixed: []FixedTo{{0, 7 + 4 + 3 - v}}} },
		"one of both": func(v int64) Change {
			return Change{Costs: []CostTo{{Pick{1, 1}, v / 2}}, Fixed: []FixedTo{{0, v - v/2 - 7 - 4}}}
		},
		"the last says": func(v int64) Change { return Change{Fixed: []FixedTo{{0, Limit}, {0, v - 7 - 4 - 3}}} },
	} {
		s, err := New(plainProblem())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Solve(t.Context(), change(Limit), Settings{}); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := s.Solve(t.Context(), change(Limit+1), Settings{}); err == nil || !strings.Contains(err.Error(), "2^53") {
			t.Errorf("%s: a sum of 2^53+1 is let in (%v)", name, err)
		}
	}
}

// TestChangeMakesRoom: what a change takes away is not counted, and in a row that all
// charges count in the others stand.
func TestChangeMakesRoom(t *testing.T) {
	p := plainProblem()
	p.Groups[0].Columns[1].Cost = Limit - 5 - 7 - 3
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	ch := Change{Costs: []CostTo{{Pick{0, 1}, 4}}, Fixed: []FixedTo{{0, 1000}}}
	if _, err := s.Solve(t.Context(), ch, Settings{}); err != nil {
		t.Error(err)
	}
	p = plainProblem()
	p.Groups[0].Columns[0].Terms = []Term{{1, Limit - 12}}
	if s, err = New(p); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Solve(t.Context(), Change{Fixed: []FixedTo{{0, 6}}}, Settings{}); err == nil {
		t.Error("a row with charges that comes to 2^53+1 is let in")
	}
}

// TestAccountsRefused: an account that no switch or row can need is refused, not made room
// for.
func TestAccountsRefused(t *testing.T) {
	for name, set := range map[string]func(p *Problem, n int){
		"a switch": func(p *Problem, n int) { p.Switches[0].Account = n },
		"a row":    func(p *Problem, n int) { p.Rows[1].Account = n },
	} {
		for n, good := range map[int]bool{0: true, 3: true, 4: false, 1 << 40: false, -1: false} {
			p := plainProblem() // one switch and two rows
			set(p, n)
			s, err := New(p)
			if good != (err == nil) {
				t.Errorf("%s on account %d: %v", name, n, err)
			}
			if err != nil {
				continue
			}
			if res, err := s.Solve(t.Context(), Change{}, Settings{}); err != nil || !res.Has {
				t.Errorf("%s on account %d: %v, %v", name, n, res.Status, err)
			}
		}
	}
}

// TestPartsRefused: parts that are none.
func TestPartsRefused(t *testing.T) {
	for _, parts := range [][]int{{1}, {0, 0}, {0, 2}, {0, -1}} {
		p := plainProblem()
		if p.Parts = parts; refusal(p) == nil {
			t.Errorf("parts that begin with groups %v are let in", parts)
		}
	}
}

// TestBelowAnything: asked for totals below any there can be, nothing is found.
func TestBelowAnything(t *testing.T) {
	for _, below := range []int64{-1 << 63, -Limit - 1, -Limit, 0} {
		s, _ := New(plainProblem())
		res, err := s.Solve(t.Context(), Change{Below: &below}, Settings{})
		if err != nil || res.Has || res.Status != Infeasible || res.Bound < max(below, -Limit) {
			t.Errorf("below %d: %v, bound %d (%v)", below, res.Status, res.Bound, err)
		}
	}
}

// refusal is why New takes a problem for none; nil where it takes it.
func refusal(p *Problem) error {
	_, err := New(p)
	return err
}
