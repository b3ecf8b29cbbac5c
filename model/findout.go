package model

import (
	"cmp"
	"context"
	"slices"

	"brightset/catalog"
	"brightset/solver"
)

// FindOut is a price that is not firm, and what knowing it before anything is
// committed is worth.
type FindOut struct {
	Piece, Plater int
	Planned       bool          // the plan sends the piece there, or holds it in reserve for that
	Gain          catalog.Cents // expected, over half the cases in which the price is off
	Most          catalog.Cents // saved in the case in which it matters
}

// FindOuts looks at every piece and plater without a firm quote. The price of his
// work is taken to be as planned in half the cases, and lower or higher by its
// spread in a quarter each (common practice, no published source). Knowing it is
// worth what the best set costs less, on average, than the plan carried out
// regardless; what is worth nothing can't change the decision and is left out.
// The most valuable comes first. Sums of several are not what they are worth together.
func FindOuts(ctx context.Context, st *catalog.State, plan *Plan, set solver.Settings) (all []FindOut, whole bool, err error) {
	for _, o := range openPrices(st) {
		if ctx.Err() != nil {
			return all, false, nil
		}
		o.Planned = usesThere(plan, o.Piece, o.Plater)
		both := catalog.Cents(0)
		for _, sign := range []catalog.Cents{-1, 1} {
			if sign > 0 && !o.Planned {
				continue // no set gets cheaper, and the plan's price stays
			}
			gain, proven, err := gainOf(ctx, st, plan, &o, sign, set)
			if err != nil || !proven {
				return all, false, err
			}
			both, o.Most = both+gain, max(o.Most, gain)
		}
		if o.Gain = (both + 2) / 4; o.Gain > 0 {
			all = append(all, o)
		}
	}
	slices.SortStableFunc(all, func(a, b FindOut) int { return cmp.Compare(b.Gain, a.Gain) })
	return all, true, nil
}

// openPrices lists pieces and platers with a choice whose price may be off.
func openPrices(st *catalog.State) []FindOut {
	var all []FindOut
	for _, choices := range Choices(st) {
		for i := range choices {
			c := &choices[i]
			o := FindOut{Piece: c.Piece, Plater: c.Plater}
			if c.Plated() && plateSpread(st, c) > 0 && (admitted(st, c, Planned) || admitted(st, c, Reserve)) && !slices.Contains(all, o) {
				all = append(all, o)
			}
		}
	}
	return all
}

// plateSpread is the part of a choice's spread that is the plater's.
func plateSpread(st *catalog.State, c *Choice) catalog.Cents {
	only := *c
	only.Other = 0
	return Spread(st, &only)
}

func usesThere(plan *Plan, piece, plater int) bool {
	return slices.ContainsFunc(plan.Lines, func(l Line) bool {
		f := l.Fallback
		return (l.Choice.Piece == piece && l.Choice.Plater == plater) || (f != nil && f.Piece == piece && f.Plater == plater)
	})
}

// gainOf is what the best set costs less than the plan if the price is off one way.
func gainOf(ctx context.Context, st *catalog.State, plan *Plan, o *FindOut, sign catalog.Cents, set solver.Settings) (gain catalog.Cents, proven bool, err error) {
	off := func(c *Choice) {
		if c.Piece == o.Piece && c.Plater == o.Plater {
			c.Plate += sign * plateSpread(st, c)
		}
	}
	p := Compile(st, Options{FixedLimits: true, Adjust: off})
	res, err := solveOnce(ctx, p.Problem, solver.Change{}, set)
	if err != nil || res.Status != solver.Optimal {
		return 0, res.Status == solver.Infeasible, err
	}
	return max(0, carriedOut(st, plan, off)-catalog.Cents(res.Total)), true, nil
}

// carriedOut is what the plan comes to with other figures: its lines, and what the
// least lots add.
func carriedOut(st *catalog.State, plan *Plan, off func(*Choice)) catalog.Cents {
	total := plan.Expected
	shift := make([]catalog.Cents, len(st.Platers)) // of the work in each lot
	work := make([]catalog.Cents, len(st.Platers))
	for i := range plan.Lines {
		l := &plan.Lines[i]
		k := *l.Choice
		off(&k)
		k.addUp()
		f := l.Fallback
		if f != nil {
			other := *f
			off(&other)
			other.addUp()
			f = &other
		}
		total += Expected(st, &k, f) - l.Expected
		if k.Plated() {
			shift[k.Plater] += k.Plate - l.Choice.Plate
			work[k.Plater] += l.Choice.Plate
		}
	}
	for q := range st.Platers {
		if least := st.Platers[q].Minimum; work[q] > 0 {
			total += max(0, least-work[q]-shift[q]) - max(0, least-work[q])
		}
	}
	return total
}
