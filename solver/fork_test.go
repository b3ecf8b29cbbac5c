package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"sync"
	"testing"
	"time"

	"brightset/testdata/campaign"
)

// TestAny: asked whether any solution is below a total, a search says so truly, and what
// it finds is one. At times it ends with one that is not the cheapest.
func TestAny(t *testing.T) {
	early := 0
	for seed := range uint64(campaign.Cases(400, 5000)) {
		r := rand.New(rand.NewPCG(seed, 61))
		p := randomProblem(r, 6, 7)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		least, err := s.Solve(context.Background(), Change{}, Settings{})
		if err != nil || !least.Has {
			continue
		}
		for _, more := range []int64{-1, 0, 1, r.Int64N(100), 1 + r.Int64N(10_000)} {
			below := least.Total + more
			var first Result
			for i, n := range []int{1, 4} {
				f, _ := New(p)
				res, err := f.Solve(context.Background(), Change{Below: &below, Any: true}, Settings{Goroutines: n})
				if err != nil || res.Has != (more > 0) {
					t.Fatalf("seed %d: least %d, any below %d: %v (%v)", seed, least.Total, below, res.Status, err)
				}
				if res.Has && (res.Status != Found || res.Total >= below || res.Bound > least.Total) ||
					!res.Has && res.Status != Infeasible {
					t.Fatalf("seed %d: least %d, any below %d: %v %d, none below %d", seed, least.Total, below, res.Status, res.Total,
						res.Bound)
				}
				if res.Has && res.Total > least.Total {
					early++
				}
				if i == 0 {
					first = res
				} else if !reflect.DeepEqual(first.Pick, res.Pick) {
					t.Fatalf("seed %d: another pick with %d goroutines", seed, n)
				}
			}
		}
	}
	if early < 20 {
		t.Errorf("only %d searches ended with a solution that is not the cheapest: nothing was saved", early)
	}
}

// changeOf bans something at random.
func changeOf(r *rand.Rand, p *Problem) (ch Change) {
	for g := range p.Groups {
		if n := len(p.Groups[g].Columns); n > 1 && r.IntN(3) == 0 {
			ch.Ban = append(ch.Ban, Pick{g, r.IntN(n)})
		}
	}
	return ch
}

// TestForks: forks that are asked at the same time say the same as when they are asked
// one by one, in whichever order, and leave what they come from as it was.
func TestForks(t *testing.T) {
	for seed := range uint64(campaign.Cases(120, 2000)) {
		r := rand.New(rand.NewPCG(seed, 62))
		p := randomProblem(r, 7, 8)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, ch := range []Change{changeOf(r, p), {}} {
			if _, err := s.Solve(context.Background(), ch, Settings{}); err != nil {
				t.Fatal(err)
			}
		}
		known := fmt.Sprint(s.memory)
		if f := fmt.Sprint(s.Fork().memory); f != known {
			t.Fatalf("seed %d: a fork knows %s of %s", seed, f, known)
		}
		asked := make([]Change, 6) // the first what was asked last
		for i := range asked[1:] {
			asked[i+1] = changeOf(r, p)
		}
		together, alone := make([]Result, len(asked)), make([]Result, len(asked))
		var wait sync.WaitGroup
		for i := range asked {
			wait.Go(func() { together[i], _ = s.Fork().Solve(context.Background(), asked[i], Settings{}) })
		}
		wait.Wait()
		for i := len(asked) - 1; i >= 0; i-- {
			alone[i], _ = s.Fork().Solve(context.Background(), asked[i], Settings{Goroutines: 1})
		}
		if now := fmt.Sprint(s.memory); now != known {
			t.Errorf("seed %d: the forks changed what %s knows to %s", seed, known, now)
		}
		for i := range asked {
			together[i].Time, alone[i].Time = time.Duration(0), time.Duration(0)
			if !reflect.DeepEqual(together[i], alone[i]) {
				t.Fatalf("seed %d, question %d: %+v at the same time, %+v alone", seed, i, together[i], alone[i])
			}
		}
	}
}

// TestNewAfter: a solver that has taken over what was known of another problem answers as
// one that starts from nothing, and finds multipliers and picks again by name.
func TestNewAfter(t *testing.T) {
	carried := 0
	for seed := range uint64(campaign.Cases(300, 5000)) {
		r := rand.New(rand.NewPCG(seed, 63))
		p := randomProblem(r, 6, 7)
		name(p)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Solve(context.Background(), Change{}, Settings{}); err != nil {
			t.Fatal(err)
		}
		q := thinner(r, p)
		after, err := NewAfter(q, s)
		if err != nil {
			t.Fatal(err)
		}
		if len(after.memory.picks) > 0 && len(after.memory.row) > 0 {
			carried++
		}
		fresh, _ := New(q)
		a, errA := after.Solve(context.Background(), Change{}, Settings{})
		b, errB := fresh.Solve(context.Background(), Change{}, Settings{})
		if errA != nil || errB != nil || a.Status != b.Status || a.Total != b.Total ||
			a.Settled && b.Settled && !reflect.DeepEqual(a.Pick, b.Pick) {
			t.Fatalf("seed %d: %v %d %v after another, %v %d %v from nothing (%v, %v)", seed, a.Status, a.Total, a.Pick,
				b.Status, b.Total, b.Pick, errA, errB)
		}
	}
	if carried < 20 {
		t.Errorf("only %d took anything over", carried)
	}
}

// TestAfterAfter: what a solver took over and never asked for is taken over from it once
// more, though columns of it have gone on the way.
func TestAfterAfter(t *testing.T) {
	p := &Problem{Groups: []Group{
		{Name: "g", Columns: []Column{{Name: "a", Cost: 2}, {Name: "b", Cost: 1}, {Name: "c", Cost: 4}}},
		{Name: "h", Columns: []Column{{Name: "d", Cost: 1}, {Name: "e", Cost: 2}}},
	}}
	without := *p
	without.Groups = []Group{{Name: "g", Columns: []Column{{Name: "a", Cost: 2}, {Name: "c", Cost: 4}}}, p.Groups[1]}
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Solve(context.Background(), Change{}, Settings{}); err != nil {
		t.Fatal(err)
	}
	for _, p := range []*Problem{&without, p} {
		if s, err = NewAfter(p, s); err != nil {
			t.Fatal(err)
		}
	}
	if want := [][]int{{-1, 0}}; !reflect.DeepEqual(s.memory.picks, want) {
		t.Errorf("picks %v are known, want %v", s.memory.picks, want)
	}
	if res, err := s.Solve(context.Background(), Change{}, Settings{}); err != nil || res.Total != 2 {
		t.Errorf("total %d, want 2 (%v)", res.Total, err)
	}
}

// name names columns, which random problems don't.
func name(p *Problem) {
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			p.Groups[g].Columns[c].Name = string(rune('a' + c))
		}
	}
}

// thinner is the problem with another order of columns, some of them gone and some at
// another cost. Rules by column would have to follow, so it has none.
func thinner(r *rand.Rand, p *Problem) *Problem {
	q := *p
	q.WithinTolerance, q.AllEqual, q.Parts = nil, nil, nil
	q.Groups = nil
	for _, g := range p.Groups {
		cols := append([]Column(nil), g.Columns...)
		r.Shuffle(len(cols), func(i, j int) { cols[i], cols[j] = cols[j], cols[i] })
		cols = cols[:max(1, len(cols)-r.IntN(3))]
		cols[0].Cost += r.Int64N(50)
		q.Groups = append(q.Groups, Group{Name: g.Name, Columns: cols})
	}
	return &q
}
