package ask

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// inTheFiles is a state in which the file's figure that a point is about has a value,
// from the words: a price and a grade given by eye are the piece's, of a quote they are
// the quote's. Where no file holds the figure, adjust moves it in what is derived for
// every slot: the chance that any of n pieces breaks, in the work or in the fitting.
func inTheFiles(st *catalog.State, p *Breakpoint, v int64) (*catalog.State, func(*plan.Choice)) {
	c := p.Choice
	out := st.Clone()
	piece := &out.Pieces[c.Piece]
	switch {
	case p.Figure == choice.FigurePrice:
		piece.Price = catalog.Cents(v)
		return out, nil
	case c.Quote != catalog.None && p.Figure == choice.FigurePlating:
		piece.Quotes[c.Quote].Cost = catalog.Cents(v)
		return out, nil
	case c.Quote != catalog.None && p.Figure == choice.FigureBreakage:
		piece.Quotes[c.Quote].Breakage = jobs.Set(catalog.Micro(v))
		return out, nil
	case c.Quote != catalog.None:
		piece.Quotes[c.Quote].Grade = jobs.Set(catalog.Centi(v))
		return out, nil
	case p.Figure == choice.FigureGrade && c.Work == catalog.WorkAsIs:
		piece.Grade = jobs.Set(catalog.Centi(v))
		return out, nil
	}
	return st, func(k *plan.Choice) {
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
		case choice.FigurePlating:
			k.Plate = max(0, k.Plate+catalog.Cents(n)*catalog.Cents(v-p.Now))
		case choice.FigureGrade:
			k.Grade = min(catalog.Centi(v), best)
		case choice.FigureBreakage:
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
func chosen(t *testing.T, st *catalog.State, slot int, p *Breakpoint, v int64) (level, cheaper bool) {
	t.Helper()
	moved, adjust := inTheFiles(st, p, v)
	programNow := program.Compile(moved, program.Options{AllLines: true, Adjust: adjust})
	own := func(c *plan.Choice) bool { return plan.SameChoice(c, p.Choice) }
	var res [2]solver.Result
	for i, ban := range [][]solver.Pick{programNow.Only(slot, own),
		programNow.Only(slot, func(c *plan.Choice) bool { return !own(c) })} {
		var err error
		if res[i], err = program.SolveOnce(context.Background(), programNow.Problem, solver.Change{Ban: ban},
			solver.Settings{}); err != nil {
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
func checkPoint(t *testing.T, name string, st *catalog.State, slot int, w *Why, p *Breakpoint) {
	t.Helper()
	taken := w.Advised.Has && plan.SameChoice(p.Choice, w.Advised.Lines[slot].Choice)
	stands := func(v int64) bool {
		level, cheaper := chosen(t, st, slot, p, v)
		if taken {
			return level
		}
		return !cheaper
	}
	way, end := int64(-1), int64(0)
	if taken != (p.Figure == choice.FigureGrade) {
		way, end = 1, map[choice.Figure]int64{choice.FigurePrice: int64(catalog.MaxMoney),
			choice.FigurePlating: int64(catalog.MaxMoney), choice.FigureBreakage: 1_000_000,
			choice.FigureGrade: 100_00}[p.Figure]
	}
	told := func(v int64, want bool) {
		if got := stands(v); got != want {
			t.Errorf("%s: %s %s is %d, turns after %d (never: %v), advised: %v; at %d it stands: %v", name,
				plan.Label(st, p.Choice), p.Figure, p.Now, p.Last, p.Never, taken, v, got)
		}
	}
	if way*(p.Last-p.Now) < 0 || way*(end-p.Last) < 0 {
		t.Errorf("%s: %s %s is %d and turns after %d", name, plan.Label(st, p.Choice), p.Figure, p.Now, p.Last)
	}
	if p.Never && p.Last != end {
		t.Errorf("%s: %s %s never turns, but only up to %d of %d", name, plan.Label(st, p.Choice), p.Figure, p.Last,
			end)
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
	st := jobs.DemoState(t)
	points, unsettled := 0, 0
	look := func(name string, st *catalog.State, slot int) {
		w := whyOf(t, st, slot)
		unsettled += len(w.Unsettled)
		for i := range w.Points {
			points++
			checkPoint(t, name, st, slot, w, &w.Points[i])
		}
	}
	for s := range st.Slots {
		if id := st.Slots[s].ID; id == "crank-left" || campaign.Cases(0, 1) == 1 && (id == "grille" ||
			id == "bullet-left") {
			look("demo "+id, st, s)
		}
	}
	// Where several turns follow each other, a minimum makes up for a price, or much hangs on one cent.
	seeds := []int64{178, 387, 479, 5, 70, 179, 186, 215}
	for seed := range int64(campaign.Cases(14, 1500)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		st := jobs.Random(9000+seed, 3, jobs.Options{On: []string{"shared"}, Off: []string{"keep"}})
		look(jobs.CaseName(9000+seed, 3, "turns"), st, int(seed)%3)
	}
	if points < campaign.Cases(30, 30) || unsettled > points/100 {
		t.Errorf("only %d turns were looked at, and %d are left open", points, unsettled)
	}
	t.Logf("%d turns, %d left open", points, unsettled)
}

// TestSwitchPointsKeeping: so it is where keeping is weighed. A piece may then be the worse
// for breaking less, if one of the object's own stands in for it, and more is left open.
func TestSwitchPointsKeeping(t *testing.T) {
	points, seeds := 0, []int64{27, 48, 75, 165, 226} // where a piece is the worse for breaking less
	for seed := range int64(campaign.Cases(14, 1000)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		st := jobs.Random(9000+seed, 3, jobs.Options{On: []string{"shared", "keep"}})
		w := whyOf(t, st, int(seed)%3)
		for i := range w.Points {
			points++
			checkPoint(t, jobs.CaseName(9000+seed, 3, "keeping"), st, int(seed)%3, w, &w.Points[i])
		}
	}
	if points < campaign.Cases(10, 10) {
		t.Errorf("only %d turns were looked at", points)
	}
}
