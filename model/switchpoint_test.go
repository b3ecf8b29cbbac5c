package model

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// inTheFiles is a state in which the file's figure that a point is about has a value,
// from the words: a price and a grade given by eye are the piece's, of a quote they are
// the quote's. Where no file holds the figure, adjust moves it in what is derived for
// every slot: the chance that any of n pieces breaks, in the work or in the fitting.
func inTheFiles(st *catalog.State, p *SwitchPoint, v int64) (*catalog.State, func(*Choice)) {
	c := p.Choice
	out := st.Clone()
	piece := &out.Pieces[c.Piece]
	switch {
	case p.Figure == FigurePrice:
		piece.Price = catalog.Cents(v)
		return out, nil
	case c.Quote != catalog.None && p.Figure == FigurePlating:
		piece.Quotes[c.Quote].Cost = catalog.Cents(v)
		return out, nil
	case c.Quote != catalog.None && p.Figure == FigureBreakage:
		piece.Quotes[c.Quote].Breakage = randomSet(catalog.Micro(v))
		return out, nil
	case c.Quote != catalog.None:
		piece.Quotes[c.Quote].Grade = randomSet(catalog.Centi(v))
		return out, nil
	case p.Figure == FigureGrade && c.Work == catalog.WorkAsIs:
		piece.Grade = randomSet(catalog.Centi(v))
		return out, nil
	}
	return st, func(k *Choice) {
		if k.Piece != c.Piece || k.Work != c.Work || k.Plater != c.Plater || k.Level != c.Level || k.Quote != c.Quote {
			return
		}
		n, apart, best := st.Slots[k.Slot].Quantity, catalog.Micro(0), catalog.MaxGrade
		for _, f := range st.Pieces[k.Piece].Fit {
			if f.Slot == k.Slot {
				apart, best = f.Breakage, f.Cap
			}
		}
		switch p.Figure {
		case FigurePlating:
			k.Plate = max(0, k.Plate+catalog.Cents(n)*catalog.Cents(v-p.Now))
		case FigureGrade:
			k.Grade = min(catalog.Centi(v), best)
		case FigureBreakage:
			one := catalog.Both(catalog.One-catalog.Micro(v), catalog.One-apart)
			whole := catalog.One
			for range n {
				whole = catalog.Both(whole, one)
			}
			k.Breakage = catalog.One - whole
		}
	}
}

// chosen says, with the figure of a point at a value, whether the best set with its choice
// is no dearer than the best without it, and whether it is cheaper: by two solves of the
// program with every line.
func chosen(t *testing.T, st *catalog.State, slot int, p *SwitchPoint, v int64) (level, cheaper bool) {
	t.Helper()
	moved, adjust := inTheFiles(st, p, v)
	program := Compile(moved, Options{AllLines: true, Adjust: adjust})
	own := func(c *Choice) bool { return sameChoice(c, p.Choice) }
	var res [2]solver.Result
	for i, ban := range [][]solver.Pick{program.Only(slot, own), program.Only(slot, func(c *Choice) bool { return !own(c) })} {
		var err error
		if res[i], err = solveOnce(context.Background(), program.Problem, solver.Change{Ban: ban}, solver.Settings{}); err != nil {
			t.Fatal(err)
		}
	}
	with, without := &res[0], &res[1]
	if !with.Has || !without.Has {
		return with.Has, with.Has
	}
	return with.Total <= without.Total, with.Total < without.Total
}

// checkPoint moves a figure in the files to both sides of the turn that is told, and to
// values between it and what it is now.
func checkPoint(t *testing.T, name string, st *catalog.State, slot int, w *Why, p *SwitchPoint) {
	t.Helper()
	taken := w.Advised.Has && sameChoice(p.Choice, w.Advised.Lines[slot].Choice)
	stands := func(v int64) bool {
		level, cheaper := chosen(t, st, slot, p, v)
		if taken {
			return level
		}
		return !cheaper
	}
	way, end := int64(-1), int64(0)
	if taken != (p.Figure == FigureGrade) {
		way, end = 1, map[Figure]int64{FigurePrice: int64(catalog.MaxMoney), FigurePlating: int64(catalog.MaxMoney), FigureBreakage: 1_000_000, FigureGrade: 100_00}[p.Figure]
	}
	told := func(v int64, want bool) {
		if got := stands(v); got != want {
			t.Errorf("%s: %s %s is %d, turns after %d (never: %v), advised: %v; at %d it stands: %v", name, Label(st, p.Choice), p.Figure, p.Now, p.Last, p.Never, taken, v, got)
		}
	}
	if way*(p.Last-p.Now) < 0 || way*(end-p.Last) < 0 {
		t.Errorf("%s: %s %s is %d and turns after %d", name, Label(st, p.Choice), p.Figure, p.Now, p.Last)
	}
	if p.Never && p.Last != end {
		t.Errorf("%s: %s %s never turns, but only up to %d of %d", name, Label(st, p.Choice), p.Figure, p.Last, end)
	}
	told(p.Now, true)
	told(p.Last, true)
	if !p.Never {
		told(p.Last+way, false)
	}
	r := rand.New(rand.NewPCG(uint64(p.Now), uint64(p.Last)))
	for range 2 {
		if far := way * (p.Last - p.Now); far > 0 {
			told(p.Now+way*r.Int64N(far+1), true)
		}
	}
}

// TestSwitchPointsByHand: one unit beyond what is told another choice is better, and up to
// there none is, when the figure is moved in the files, which know it once for all slots.
func TestSwitchPointsByHand(t *testing.T) {
	st := demoState(t)
	points := 0
	look := func(name string, st *catalog.State, slot int) {
		w := whyOf(t, st, slot)
		for i := range w.Points {
			points++
			checkPoint(t, name, st, slot, w, &w.Points[i])
		}
	}
	for s := range st.Slots {
		if id := st.Slots[s].ID; id == "grille" || id == "crank-left" || id == "bullet-left" {
			look("demo "+id, st, s)
		}
	}
	for seed := range int64(campaign(10, 1500)) {
		st := randomState(9000+seed, 3, randomOptions{On: []string{"shared"}})
		look(randomName(9000+seed, 3, "turns"), st, int(seed)%3)
	}
	if points < 30 {
		t.Errorf("only %d turns were looked at", points)
	}
}
