package ask

import (
	"cmp"
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/parallel"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
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

// InformationValues looks at every figure that may turn out otherwise. Where nothing better is
// known it is as planned in half the cases, and lower or higher in a quarter each:
// a plater's price by its spread (and the likelier the farther it may go), his grade three points; what stripping shows is that he
// sends the piece back, with the chance of that, else that it breaks as planned, half or
// twice as often, if he has not quoted how often; a starting value of the shop's hour or of a rescue
// a quarter or a half less or more; the hours of a work half or one and a half times
// as many, the breakage of a metal half or twice as high (common practice, no published
// source). A lead comes with its own chance. Knowing a figure is worth what the best set
// costs less, on average, than the plan carried out regardless; what is worth no more
// than it costs to find out is left out. The most valuable comes first. Sums of several
// are not what they are worth together. Those that the plan rests on are looked at
// first; whole is false where time ran out or a search was not proven.
func InformationValues(ctx context.Context, st *catalog.State, plan *plan.Plan, set solver.Settings) (all []InformationValue, whole bool, err error) {
	return informationValues(ctx, st, plan, uncertainFigures, set)
}

// StripFirst are those of InformationValues that stripping a piece shows: the ones worth it before
// anything is committed, spares included.
func StripFirst(ctx context.Context, st *catalog.State, plan *plan.Plan, set solver.Settings) (all []InformationValue, whole bool, err error) {
	return informationValues(ctx, st, plan, openToStripping, set)
}

// openToStripping lists the figures that stripping a piece shows.
func openToStripping(st *catalog.State, plan *plan.Plan, choices [][]plan.Choice) []uncertain {
	return slices.DeleteFunc(uncertainFigures(st, plan, choices), func(o uncertain) bool { return o.Figure != choice.FigureBreakage })
}

func informationValues(ctx context.Context, st *catalog.State, plan *plan.Plan, list func(*catalog.State, *plan.Plan, [][]plan.Choice) []uncertain, set solver.Settings) (all []InformationValue, whole bool, err error) {
	clock := newClock(ctx, set)
	ctx, done := clock.within()
	defer done()
	base, err := knowing(ctx, st, plan, set)
	if err != nil || base.GaveUp {
		return nil, false, err
	}
	figures, err := worthAsking(ctx, plan, list(st, plan, base.Choices), base)
	if err != nil {
		return nil, false, err
	}
	ways := waysOf(figures)
	share := newShares(ctx, len(ways))
	err = parallel.Do(ctx, len(ways), func(i int) (err error) {
		within, done := share.next(ctx)
		defer done()
		w := &ways[i]
		w.gain, w.proven, err = gainWith(within, base, plan, w.of, w.turnout)
		w.asked = true
		return err
	})
	all, whole = addUp(st, figures, ways)
	slices.SortStableFunc(all, func(a, b InformationValue) int { return cmp.Compare(b.Gain, a.Gain) })
	return all, whole, err
}

// knowing is an explorer of a state's program that knows the plan to begin with, and has
// learnt from it what sets cost.
func knowing(ctx context.Context, st *catalog.State, plan *plan.Plan, set solver.Settings) (*program.Explorer, error) {
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true}, set)
	if err != nil || e.GaveUp || len(e.Unfilled()) > 0 {
		return e, err
	}
	within, done := program.Portion(ctx, 0.25)
	defer done()
	above := int64(plan.Expected) + 1
	_, err = e.Least(within, solver.Change{Below: &above})
	return e, err
}

// asking is one way in which a figure may turn out, and the answer to what that saves.
type asking struct {
	of *uncertain
	*turnout
	gain          catalog.Cents
	asked, proven bool
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

// addUp is what figures are worth on average, of those of which every way was asked about.
func addUp(st *catalog.State, figures []uncertain, ways []asking) (all []InformationValue, whole bool) {
	whole = true
	for n := range figures {
		o, sum, known := &figures[n], int64(0), true
		for i := range ways {
			if w := &ways[i]; w.of == o {
				known, whole = known && w.asked, whole && w.proven
				sum, o.Most = sum+int64(w.likely)*int64(w.gain), max(o.Most, w.gain)
			}
		}
		if o.Gain = catalog.Cents((sum + int64(catalog.One)/2) / int64(catalog.One)); known && o.Gain > o.fee(st) {
			all = append(all, o.InformationValue)
		}
	}
	return all, whole
}

// fee is what finding a figure out costs: to see how a piece stands the work it has
// to be stripped.
func (o *InformationValue) fee(st *catalog.State) catalog.Cents {
	if o.Figure == choice.FigureBreakage {
		return st.Platers[o.Plater].StripFee
	}
	return 0
}

// gainWith is what the best set costs less than the plan if a figure turns out one way.
//
// What is then known to fail is carried out regardless at what failing costs, and is not
// there for the best set. The plan carried out regardless counts at what it costs even where it then misses
// the mean or the chance asked for; the best set is one that does not.
func gainWith(ctx context.Context, base *program.Explorer, pl *plan.Plan, o *uncertain, w *turnout) (gain catalog.Cents, proven bool, err error) {
	st, opt, find := base.State, program.Options{GiveUp: program.Over(ctx)}, (func(*plan.Choice) *plan.Choice)(nil)
	piece, one := o.piece()
	if w.choice != nil {
		opt.Adjust = w.choice
		find = func(c *plan.Choice) *plan.Choice {
			k := *c
			w.choice(&k)
			choice.AddUp(&k)
			return &k
		}
	} else {
		st = st.Clone()
		w.state(st)
		then := map[int][]plan.Choice{}
		find = func(c *plan.Choice) *plan.Choice {
			if one && c.Piece != piece {
				return c
			}
			if then[c.Slot] == nil {
				then[c.Slot] = choice.ChoicesFor(st, c.Slot)
			}
			return choice.FindSame(then[c.Slot], c)
		}
	}
	regardless := carriedOut(st, pl, find)
	if w.gone != nil {
		st = st.Clone()
		w.gone(st)
	}
	if !one {
		opt.FixedLimits = true
		return savedBy(ctx, base, program.Compile(st, opt), regardless, 1)
	}
	return savedBy(ctx, base, base.Again(st, opt, piece), regardless, 1)
}

// savedBy is what the best set of a program costs less than a sum, 0 if that is less
// than so much. Base is asked first: the program is much like its.
func savedBy(ctx context.Context, base *program.Explorer, p *program.Program, sum, least catalog.Cents) (gain catalog.Cents, proven bool, err error) {
	below := int64(sum - least + 1)
	e, err := base.After(p)
	if err != nil {
		return 0, false, err
	}
	res, err := e.Least(ctx, solver.Change{Below: &below})
	if err != nil || !res.Has {
		return 0, res.Status == solver.Infeasible, err
	}
	return sum - catalog.Cents(res.Total), res.Status == solver.Optimal, nil
}

// carriedOut is what the plan comes to with other figures. What can't fail any more
// needs nothing in reserve.
func carriedOut(st *catalog.State, pl *plan.Plan, find func(*plan.Choice) *plan.Choice) catalog.Cents {
	var lines []plan.Line
	for _, l := range pl.Lines {
		l.Choice = find(l.Choice)
		if l.Choice.Fails == 0 {
			l.Fallback = nil
		}
		if l.Fallback != nil {
			l.Fallback = find(l.Fallback)
		}
		lines = append(lines, l)
	}
	total := comeTo(st, lines)
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargeTrade {
			total += c.Cents
		}
	}
	return total
}

// comeTo is what lines come to in a state: what each is expected to cost, and the
// charges they share, but no trades.
func comeTo(st *catalog.State, lines []plan.Line) catalog.Cents {
	p := &program.Program{State: st}
	on := make([]bool, p.BundleSwitch(len(st.Bundles)))
	work := make([]catalog.Cents, len(st.Platers))
	total := catalog.Cents(0)
	for i := range lines {
		k, f := lines[i].Choice, lines[i].Fallback
		total += choice.Expected(st, k, f)
		for _, sw := range p.Needs(k, f) {
			on[sw] = true
		}
		if k.InLot() {
			work[k.Plater] += k.Plate
		}
	}
	for b := range st.Bundles {
		if on[p.BundleSwitch(b)] {
			total += st.Bundles[b].Price
			if v := st.Bundles[b].Vendor; v != catalog.None {
				on[p.VendorSwitch(v)] = true
			}
		}
	}
	for q := range st.Platers {
		if on[p.PlaterSwitch(q)] {
			total += st.Platers[q].Freight + max(0, st.Platers[q].Minimum-work[q])
		}
	}
	for v := range st.Vendors {
		if on[p.VendorSwitch(v)] {
			total += st.Vendors[v].Freight
		}
	}
	return total
}
