package model

import (
	"cmp"
	"context"
	"slices"

	"brightset/catalog"
	"brightset/solver"
)

// FindOut is a price that is not firm, or a breakage or grade that is nobody's experience,
// and what knowing it before anything is committed is worth.
type FindOut struct {
	Piece, Plater int
	Figure        Figure        // FigurePlating, FigureBreakage or FigureGrade
	Planned       bool          // the plan sends the piece there, or holds it in reserve for that
	Gain          catalog.Cents // expected, over half the cases in which the price is off
	Most          catalog.Cents // saved in the case in which it matters
}

// FindOuts looks at every piece and plater without a firm quote. The price of his
// work is taken to be as planned in half the cases, and lower or higher by its
// spread in a quarter each; a breakage that he has not quoted half as high or twice
// as high in a quarter each, and a grade he has not quoted three points lower or higher
// in a quarter each (common practice, no published source). Knowing it is
// worth what the best set costs less, on average, than the plan carried out
// regardless; what is worth no more than it costs to find out is left out.
// The most valuable comes first. Sums of several are not what they are worth together.
func FindOuts(ctx context.Context, st *catalog.State, plan *Plan, set solver.Settings) (all []FindOut, whole bool, err error) {
	defer func() {
		slices.SortStableFunc(all, func(a, b FindOut) int { return cmp.Compare(b.Gain, a.Gain) })
	}()
	for _, o := range openFigures(st) {
		if ctx.Err() != nil {
			return all, false, nil
		}
		o.Planned = usesThere(plan, o.Piece, o.Plater)
		both := catalog.Cents(0)
		for _, sign := range []catalog.Cents{-1, 1} {
			if (sign > 0) != (o.Figure == FigureGrade) && !o.Planned {
				continue // for the worse: no set gets cheaper, and the plan stays
			}
			gain, proven, err := gainOf(ctx, st, plan, &o, sign, set)
			if err != nil || !proven {
				return all, false, err
			}
			both, o.Most = both+gain, max(o.Most, gain)
		}
		if o.Gain = (both + 2) / 4; o.Gain > o.fee(st) {
			all = append(all, o)
		}
	}
	return all, true, nil
}

// spreadGrade is by how much a plater's grade may be off, in hundredths.
const spreadGrade = 3_00

// openFigures lists pieces and platers with a choice whose price, or whose
// breakage, may be off.
func openFigures(st *catalog.State) []FindOut {
	var all []FindOut
	add := func(o FindOut, open bool) {
		if open && !slices.Contains(all, o) {
			all = append(all, o)
		}
	}
	for _, choices := range Choices(st) {
		for i := range choices {
			c := &choices[i]
			if !c.Plated() || !(admitted(st, c, Planned) || admitted(st, c, Reserve)) {
				continue
			}
			add(FindOut{Piece: c.Piece, Plater: c.Plater, Figure: FigurePlating}, plateSpread(st, c) > 0)
			add(FindOut{Piece: c.Piece, Plater: c.Plater, Figure: FigureBreakage},
				c.Breakage > 0 && (c.Quote == catalog.None || !st.Pieces[c.Piece].Quotes[c.Quote].Breakage.Set))
			add(FindOut{Piece: c.Piece, Plater: c.Plater, Figure: FigureGrade},
				c.Quote == catalog.None || !st.Pieces[c.Piece].Quotes[c.Quote].Grade.Set)
		}
	}
	return all
}

// fee is what finding a figure out costs: to see how a piece stands the work it has
// to be stripped.
func (o *FindOut) fee(st *catalog.State) catalog.Cents {
	if o.Figure == FigureBreakage {
		return st.Platers[o.Plater].StripFee
	}
	return 0
}

// off changes the figure of a choice that is looked at to where it may really lie.
func (o *FindOut) off(st *catalog.State, c *Choice, sign catalog.Cents) {
	switch {
	case c.Piece != o.Piece || c.Plater != o.Plater:
	case o.Figure == FigurePlating:
		c.Plate += sign * plateSpread(st, c)
	case o.Figure == FigureGrade:
		c.Grade = min(max(c.Grade+catalog.Centi(sign)*spreadGrade, 0), 100_00)
	case sign < 0:
		c.Breakage /= 2
	default:
		c.Breakage = min(2*c.Breakage, catalog.One)
	}
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
//
// The plan carried out regardless counts at what it costs even where it then misses
// the mean or the chance asked for; the best set is one that does not.
func gainOf(ctx context.Context, st *catalog.State, plan *Plan, o *FindOut, sign catalog.Cents, set solver.Settings) (gain catalog.Cents, proven bool, err error) {
	off := func(c *Choice) { o.off(st, c, sign) }
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
