package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"brightset/testdata/campaign"
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
	for seed := range uint64(campaign.Cases(300, 20_000)) {
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
