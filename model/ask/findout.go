package ask

import (
	"cmp"
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// InformationValue is a figure that is nobody's promise yet, and what knowing it before anything
// is committed is worth.
type InformationValue struct {
	Figure  choice.Figure
	Piece   int           // FigurePlating, FigureBreakage, FigureGrade, FigureLead
	Plater  int           // FigurePlating, FigureBreakage, FigureGrade
	Metal   int           // FigureBase
	Work    int           // FigureHours
	Planned bool          // the plan rests on it
	Gain    catalog.Cents // expected
	AtMost  catalog.Cents // Gain where that is proven, else the most it can be; catalog.MaxSum: no end is known
	Most    catalog.Cents // saved in the case in which it matters
}

// Figures that are not one piece's at one plater.
const (
	FigureLead   choice.Figure = "lead"   // whether a piece comes at all
	FigureRescue choice.Figure = "rescue" // the starting value of what filling a slot in a hurry costs
	FigureHourly choice.Figure = "hourly" // the starting value of the shop's hour
	FigureHours  choice.Figure = "hours"  // the starting values of the hours a trade work takes
	FigureBase   choice.Figure = "base"   // the starting values of how often pieces of a metal break
)

// uncertain is a figure with the ways in which it may turn out otherwise.
type uncertain struct {
	InformationValue
	ways []turnout
}

// piece is the one whose choices alone the figure changes; ok is false where it may
// change any.
func (o *uncertain) piece() (piece int, ok bool) { return o.Piece, o.Piece != catalog.None }

// turnout is one way in which a figure may turn out, and how likely that is. What is a
// quote's or an estimate's is changed in the choices, the rest in the state.
type turnout struct {
	likely catalog.Micro
	worse  bool // no set gets cheaper by it
	choice func(*plan.Choice)
	state  func(*catalog.State)
	gone   func(*catalog.State) // takes out what then is known to fail: nobody would plan it again; nil for nothing
}

// InformationValues looks at every figure that may turn out otherwise. Where nothing
// better is known it is as planned in half the cases, and lower or higher in a quarter
// each: a plater's price by its spread (and the likelier the farther it may go), his
// grade three points; what stripping shows is that he sends the piece back, with the
// chance of that, else that it breaks as planned, half or twice as often, if he has not
// quoted how often; a starting value of the shop's hour or of a rescue a quarter or a
// half less or more; the hours of a work half or one and a half times as many, the
// breakage of a metal half or twice as high (common practice, no published source). A
// lead comes with its own chance. Knowing a figure is worth what the best set costs less,
// on average, than the plan carried out regardless; what is worth no more than it costs
// to find out is left out. The most valuable comes first. Sums of several are not what
// they are worth together. Those that the plan rests on are looked at first; whole is
// false where time ran out or a search was not proven.
func InformationValues(ctx context.Context, plan *plan.Plan,
	set solver.Settings) (all []InformationValue, whole bool, err error) {
	return informationValues(ctx, plan, uncertainFigures, set)
}

// StripFirst are those of InformationValues that stripping a piece shows: the ones worth it before
// anything is committed, spares included.
func StripFirst(ctx context.Context, plan *plan.Plan,
	set solver.Settings) (all []InformationValue, whole bool, err error) {
	return informationValues(ctx, plan, openToStripping, set)
}

// openToStripping lists the figures that stripping a piece shows.
func openToStripping(plan *plan.Plan, choices [][]plan.Choice) []uncertain {
	return slices.DeleteFunc(uncertainFigures(plan, choices),
		func(o uncertain) bool { return o.Figure != choice.FigureBreakage })
}

func informationValues(ctx context.Context, plan *plan.Plan, list func(*plan.Plan, [][]plan.Choice) []uncertain,
	set solver.Settings) (all []InformationValue, whole bool, err error) {
	clock := newClock(ctx, set)
	ctx, done := clock.within()
	defer done()
	base, err := knowing(ctx, plan, set)
	if err != nil || base.GaveUp {
		return nil, false, err
	}
	own, spares := ownAndSpares(list(plan, base.Choices))
	all, whole, err = valuesOf(ctx, plan, own, base)
	if err != nil {
		return all, false, err
	}
	good, err := mayBeWorthAsking(ctx, plan, spares, base)
	if err != nil {
		return all, false, err
	}
	more, rest, err := valuesOf(ctx, plan, good, base)
	all, whole = append(all, more...), whole && rest
	slices.SortStableFunc(all, func(a, b InformationValue) int { return cmp.Compare(b.Gain, a.Gain) })
	return all, whole, err
}

// valuesOf asks what every way of figures saves.
func valuesOf(ctx context.Context, plan *plan.Plan, figures []uncertain,
	base *program.Explorer) (all []InformationValue, whole bool, err error) {
	ways := waysOf(figures)
	groups, single := contests(ways)
	share := newShares(ctx, len(groups)+len(single))
	err = parallel.Do(ctx, len(groups)+len(single), func(i int) error {
		within, done := share.Next(ctx)
		defer done()
		if i >= len(groups) {
			return single[i-len(groups)].alone(within, base, plan)
		}
		c, err := newContest(within, base, plan, groups[i])
		if err != nil {
			return err
		}
		return c.settle(within, base)
	})
	all, whole = addUp(plan.Of, figures, ways)
	return all, whole, err
}

// knowing is an explorer of a plan's program that knows it to begin with, and has
// learnt from it what sets cost.
func knowing(ctx context.Context, plan *plan.Plan, set solver.Settings) (*program.Explorer, error) {
	e, err := program.NewExplorer(ctx, plan.Of, program.Options{FixedLimits: true}, set)
	if err != nil {
		return nil, err
	}
	above := int64(plan.Weighed()) + 1
	return e, learn(ctx, e, solver.Change{Below: &above})
}

// learn has an explorer find out what its sets cost, so that what is asked of it next starts
// from what is known. Most of the time there is is left to that.
func learn(ctx context.Context, e *program.Explorer, ch solver.Change) error {
	if e.GaveUp || len(e.Unfilled()) > 0 {
		return nil
	}
	within, done := program.Portion(ctx, 0.25)
	defer done()
	_, err := e.Least(within, ch)
	return err
}

// asking is one way in which a figure may turn out, and the answer to what that saves.
type asking struct {
	of *uncertain
	*turnout
	gain, most catalog.Cents // so much at least, and at most
	asked      bool
}

// waysOf are the ways that may change the plan, in the order of the figures.
func waysOf(figures []uncertain) (all []asking) {
	for n := range figures {
		o := &figures[n]
		for i := range o.ways {
			if !o.ways[i].worse || o.Planned { // else the plan stays
				all = append(all, asking{of: o, turnout: &o.ways[i]})
			}
		}
	}
	return all
}

// addUp is what figures are worth on average, of those of which every way was asked about. The ways are
// in the order of the figures.
func addUp(st *catalog.State, figures []uncertain, ways []asking) (all []InformationValue, whole bool) {
	whole = true
	for n := range figures {
		o, sum, most, known, open := &figures[n], int64(0), int64(0), true, false
		for ; len(ways) > 0 && ways[0].of == o; ways = ways[1:] {
			w := &ways[0]
			known, whole = known && w.asked, whole && w.asked && w.gain == w.most
			sum, o.Most = sum+int64(w.likely)*int64(w.gain), max(o.Most, w.gain)
			if open = open || w.most >= catalog.Cents(catalog.MaxSum); !open {
				most += int64(w.likely) * int64(w.most)
			}
		}
		o.Gain, o.AtMost = average(sum), average(most)
		if open {
			o.AtMost = catalog.Cents(catalog.MaxSum)
		}
		if known && (o.Gain > o.Fee(st) || o.AtMost < catalog.Cents(catalog.MaxSum) && o.AtMost > o.Fee(st)) {
			all = append(all, o.InformationValue)
		}
	}
	return all, whole
}

// average is a sum of money times how likely it is, in money.
func average(sum int64) catalog.Cents {
	return catalog.Cents((sum + int64(catalog.One)/2) / int64(catalog.One))
}

// Fee is what finding a figure out costs: to see how a piece stands the work it has
// to be stripped, and of several alike as many as a slot needs, the one that needs fewest.
func (o *InformationValue) Fee(st *catalog.State) catalog.Cents {
	if o.Figure != choice.FigureBreakage {
		return 0
	}
	least := 0
	for s := range st.Slots {
		if n := choice.Needed(&st.Slots[s]); choice.FitsSlot(&st.Pieces[o.Piece], s) && (least == 0 || n < least) {
			least = n
		}
	}
	return catalog.Cents(max(1, least)) * st.Platers[o.Plater].StripFee
}
