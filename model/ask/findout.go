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
// a plater's price by its spread, his grade three points; what stripping shows is that he
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
	defer func() {
		slices.SortStableFunc(all, func(a, b InformationValue) int { return cmp.Compare(b.Gain, a.Gain) })
	}()
	whole = true
	clock := newClock(ctx, set)
	ctx, done := clock.within()
	defer done()
	base := program.CompileWithin(ctx, st, program.Options{FixedLimits: true})
	if base.GaveUp {
		return nil, false, nil
	}
	figures, err := worthAsking(ctx, plan, list(st, plan, base.Choices), base, clock)
	if err != nil {
		return nil, false, err
	}
	for _, o := range figures {
		sum := int64(0)
		for i := range o.ways {
			if o.ways[i].worse && !o.Planned {
				continue // the plan stays
			}
			set, ok := clock.next()
			if !ok {
				return all, false, nil
			}
			gain, proven, err := gainWith(base, ctx, plan, &o, &o.ways[i], set)
			if err != nil {
				return all, false, err
			}
			whole = whole && proven
			sum, o.Most = sum+int64(o.ways[i].likely)*int64(gain), max(o.Most, gain)
		}
		if o.Gain = catalog.Cents((sum + int64(catalog.One)/2) / int64(catalog.One)); o.Gain > o.fee(st) {
			all = append(all, o.InformationValue)
		}
	}
	return all, whole, nil
}

// fee is what finding a figure out costs: to see how a piece stands the work it has
// to be stripped.
func (o *InformationValue) fee(st *catalog.State) catalog.Cents {
	if o.Figure == choice.FigureBreakage {
		return st.Platers[o.Plater].StripFee
	}
	return 0
}

// gainOf is what the best set costs less than the plan if a figure turns out one way.
//
// What is then known to fail is carried out regardless at what failing costs, and is not
// there for the best set. The plan carried out regardless counts at what it costs even where it then misses
// the mean or the chance asked for; the best set is one that does not.
func gainWith(base *program.Program, ctx context.Context, pl *plan.Plan, o *uncertain, w *turnout, set solver.Settings) (gain catalog.Cents, proven bool, err error) {
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
		return savedBy(ctx, program.Compile(st, opt), regardless, 1, set)
	}
	return savedBy(ctx, base.Again(st, opt, piece), regardless, 1, set)
}

// savedBy is what the best set of a program costs less than a sum, 0 if that is less
// than so much.
func savedBy(ctx context.Context, p *program.Program, sum, least catalog.Cents, set solver.Settings) (gain catalog.Cents, proven bool, err error) {
	below := int64(sum - least + 1)
	res, err := p.SolveOnce(ctx, solver.Change{Below: &below}, set)
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
