package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"
)

type tradeKind int

const (
	apart tradeKind = iota
	loose
	chained
)

// tradeProblem has groups of columns that each use up a piece, and voluntary switches
// that give a piece which nothing uses for one that something does. kind says how much
// they are in each other's way: loose ones are about pieces that nothing uses, chained
// ones have few pieces between them.
func tradeProblem(r *rand.Rand, groups, trades int, kind tradeKind) *Problem {
	p := &Problem{}
	row := func(name string, limit int64) int {
		p.Rows = append(p.Rows, Row{Name: fmt.Sprintf("%s%d", name, len(p.Rows)), Limit: limit})
		return len(p.Rows) - 1
	}
	budget := -1
	if r.IntN(2) == 0 {
		budget = row("budget", int64(groups)*70)
		p.Rows[budget].Charges = true
	}
	pieces := 3 * groups
	if kind == chained {
		pieces = 2 + groups
	}
	used := pieces // by columns
	if kind == loose {
		pieces += 2 * trades
	}
	rows := make([][]int, pieces) // in which a use of the piece counts
	signs := make([][]int64, pieces)
	give, get := make([]int, pieces), make([]int, pieces)
	for i := range pieces {
		give[i], get[i] = row("give", 1), row("get", 1)
		rows[i], signs[i] = []int{give[i]}, []int64{1}
	}
	for i := range trades {
		g, t := r.IntN(pieces), r.IntN(pieces)
		if kind == loose {
			g, t = used+2*i, used+2*i+1
		}
		s := Switch{Name: fmt.Sprintf("trade%d", len(p.Switches)), Fixed: -r.Int64N(40), Voluntary: true}
		taken := row("taken", 0)
		if rows[t], signs[t] = append(rows[t], taken), append(signs[t], -1); kind == loose {
			p.Rows[taken].Limit = 1
		}
		s.Terms = []Term{{give[g], 1}}
		if g != t {
			s.Terms = append(s.Terms, Term{get[t], 1})
		}
		if give[g] > get[t] {
			s.Terms[0], s.Terms[1] = s.Terms[1], s.Terms[0]
		}
		s.Terms = append(s.Terms, Term{taken, 1})
		p.Switches = append(p.Switches, s)
	}
	for g := range groups {
		group := Group{Name: fmt.Sprintf("group%d", g)}
		for range 4 {
			i := r.IntN(used)
			c := Column{Cost: 20 + r.Int64N(80), Tie: [2]int64{r.Int64N(3), r.Int64N(3)}}
			terms := map[int]int64{}
			for k, row := range rows[i] {
				terms[row] += signs[i][k]
			}
			if budget >= 0 {
				terms[budget] = c.Cost
			}
			for row := range p.Rows {
				if v := terms[row]; v != 0 {
					c.Terms = append(c.Terms, Term{row, v})
				}
			}
			group.Columns = append(group.Columns, c)
		}
		p.Groups = append(p.Groups, group)
	}
	return p
}

// solveWithin fails the test where a solve of a second's limit takes many times that:
// it would hang otherwise.
func solveWithin(t *testing.T, p *Problem) Result {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	done := make(chan Result, 1)
	go func() {
		res, err := s.Solve(ctx, Change{}, Settings{})
		if err != nil {
			t.Error(err)
		}
		done <- res
	}()
	select {
	case res := <-done:
		return res
	case <-time.After(40 * time.Second):
		t.Fatal("a solve of ten seconds has not ended after forty")
	}
	return Result{}
}

// TestManyVoluntary: thirty voluntary switches, most of them in nobody's way, cost the
// search what they weigh and not what all their settings would.
func TestManyVoluntary(t *testing.T) {
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 31))
		p := tradeProblem(r, 30, 30, tradeKind(seed%3))
		got := solveWithin(t, p)
		want, found := outside(t, p)
		if got.Has != found || found && (got.Status != Optimal || float64(got.Total) != want) {
			t.Errorf("seed %d: got %v %v %d, cbc %v %v", seed, got.Status, got.Has, got.Total, found, want)
		}
	}
}

// TestVoluntaryBrute: few columns, many voluntary switches in each other's way, against
// trying everything.
func TestVoluntaryBrute(t *testing.T) {
	feasible, on := 0, 0
	for seed := range uint64(campaign(150, 20_000)) {
		r := rand.New(rand.NewPCG(seed, 32))
		p := tradeProblem(r, 1+r.IntN(4), 1+r.IntN(6), tradeKind(r.IntN(3)))
		randomNeeds(r, p)
		got := solveWithin(t, p)
		want, found := bruteForce(p, Change{})
		if got.Has != found || found && (got.Status != Optimal || got.Total != want) {
			t.Fatalf("seed %d: got %v %v %d, trying everything %v %d", seed, got.Status, got.Has, got.Total, found, want)
		}
		if found {
			feasible++
		}
		for h := range got.On {
			if got.On[h] && p.Switches[h].Voluntary {
				on++
			}
		}
	}
	if feasible < 50 || on < 30 {
		t.Errorf("%d with a solution, %d switches on: too few to tell", feasible, on)
	}
}

// randomNeeds makes some voluntary switches need others, which charge, help a row or
// stand in its way, and lets some column need one of them.
func randomNeeds(r *rand.Rand, p *Problem) {
	trades := len(p.Switches)
	for range r.IntN(3) {
		s := Switch{
			Name:    fmt.Sprintf("helper%d", len(p.Switches)),
			Fixed:   r.Int64N(30) - 5,
			Minimum: r.Int64N(20),
			Account: r.IntN(2),
		}
		if r.IntN(2) == 0 {
			s.Terms = []Term{{r.IntN(len(p.Rows)), r.Int64N(5) - 2}}
		}
		p.Switches = append(p.Switches, s)
	}
	for h := range trades {
		for k := trades; k < len(p.Switches); k++ {
			if r.IntN(3) == 0 {
				p.Switches[h].Needs = append(p.Switches[h].Needs, k)
			}
		}
	}
	for g := range p.Groups {
		c := &p.Groups[g].Columns[0]
		for h := range p.Switches {
			if r.IntN(8) == 0 {
				c.Needs = append(c.Needs, h)
			}
		}
	}
	if r.IntN(3) == 0 { // a row that only a voluntary switch can meet
		p.Rows = append(p.Rows, Row{Name: "asked", Sense: AtLeast, Limit: 1})
		for h := range trades {
			p.Switches[h].Terms = append(p.Switches[h].Terms, Term{len(p.Rows) - 1, r.Int64N(3)})
		}
	}
}

// TestSettings: the best setting beside one pick, and of equal ones the first, against
// trying all; a search that is cut off says so.
func TestSettings(t *testing.T) {
	cut := 0
	for seed := range uint64(campaign(300, 50_000)) {
		r := rand.New(rand.NewPCG(seed, 33))
		p := tradeProblem(r, 1+r.IntN(3), 1+r.IntN(7), tradeKind(r.IntN(3)))
		randomNeeds(r, p)
		in := newInstance(p, &Change{})
		tally := in.newTally()
		pick := make([]int, len(p.Groups))
		for g := range p.Groups {
			pick[g] = r.IntN(len(p.Groups[g].Columns))
			tally.set(g, in.groups[g][0]+pick[g])
		}
		want, found := firstSetting(p, pick)
		for _, budget := range []int{1 << 20, 3} {
			got, has := []bool(nil), false
			exact, _ := tally.withVoluntary(nil, Limit, budget, func() { has, got = true, append([]bool(nil), tally.vol...) })
			switch {
			case !exact && budget > 3:
				t.Fatalf("seed %d: the search gives up", seed)
			case !exact:
				cut++
			case has != found || has && !sameOn(p, pick, got, want):
				t.Fatalf("seed %d: %v %v instead of %v %v", seed, has, got, found, want)
			}
		}
	}
	if cut == 0 {
		t.Error("no search was cut off: the switches are in nobody's way")
	}
}

// sameOn says whether two settings turn on the same switches beside a pick.
func sameOn(p *Problem, pick []int, a, b []bool) bool {
	return fmt.Sprint(p.Evaluate(pick, a, Change{}).On) == fmt.Sprint(p.Evaluate(pick, b, Change{}).On)
}

// firstSetting goes through all settings, the first switch being the last to change.
func firstSetting(p *Problem, pick []int) (best []bool, found bool) {
	var vol []int
	for h := range p.Switches {
		if p.Switches[h].Voluntary {
			vol = append(vol, h)
		}
	}
	least := int64(0)
	for mask := range 1 << len(vol) {
		on := make([]bool, len(p.Switches))
		for i, h := range vol {
			on[h] = mask>>(len(vol)-1-i)&1 == 1
		}
		if o := p.Evaluate(pick, on, Change{}); len(o.Broken) == 0 && (!found || o.Total < least) {
			best, found, least = on, true, o.Total
		}
	}
	return best, found
}
