package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// gainWith is what the best set costs less than the plan if a figure turns out one way, what
// either keeps of the object's own weighed.
//
// What is then known to fail is carried out regardless at what failing costs, and is not
// there for the best set. The plan carried out regardless counts at what it costs even where it then misses
// the mean or the chance asked for; the best set is one that does not.
func gainWith(ctx context.Context, base *program.Explorer, pl *plan.Plan, o *uncertain,
	w *turnout) (gain, most catalog.Cents, err error) {
	opt := program.Options{GiveUp: program.Over(ctx), Adjust: w.choice}
	st, find := w.then(base.State, o)
	cost, keeps := carriedOut(st, pl, find)
	regardless := cost - keeps
	piece, one := o.piece()
	if w.gone != nil {
		st = st.Clone()
		w.gone(st)
	}
	if !one {
		opt.FixedLimits = true
		return savedBy(ctx, base, program.Compile(st, opt), regardless)
	}
	return savedBy(ctx, base, base.Again(st, opt, piece), regardless)
}

// then is the state in which a figure has turned out one way, and what becomes of a choice.
func (w *turnout) then(st *catalog.State, o *uncertain) (*catalog.State, func(*plan.Choice) *plan.Choice) {
	if w.choice != nil {
		return st, func(c *plan.Choice) *plan.Choice {
			k := *c
			w.choice(&k)
			choice.AddUp(&k)
			return &k
		}
	}
	st = st.Clone()
	w.state(st)
	piece, one := o.piece()
	then := map[int][]plan.Choice{}
	return st, func(c *plan.Choice) *plan.Choice {
		if one && c.Piece != piece {
			return c
		}
		if then[c.Slot] == nil {
			then[c.Slot] = choice.ChoicesFor(st, c.Slot)
		}
		return choice.FindSame(then[c.Slot], c)
	}
}

// savedBy is what the best set of a program costs less than a sum, at least and at most.
// What base knows is known to begin with: the program is much like its.
func savedBy(ctx context.Context, base *program.Explorer, p *program.Program,
	sum catalog.Cents) (gain, most catalog.Cents, err error) {
	below := int64(sum)
	e, err := base.After(p)
	if err != nil {
		return 0, 0, err
	}
	res, err := e.Least(ctx, solver.Change{Below: &below})
	if err != nil || res.Status == solver.Infeasible {
		return 0, 0, err
	}
	if res.Has {
		gain = sum - catalog.Cents(res.Total)
	}
	if res.Bound <= -catalog.MaxSum {
		return gain, catalog.Cents(catalog.MaxSum), nil
	}
	return gain, max(0, sum-catalog.Cents(res.Bound)), nil
}

// carriedOut is what the plan comes to with other figures, and what it keeps. What can't fail any more
// needs nothing in reserve, and what was held for it may be traded.
func carriedOut(st *catalog.State, pl *plan.Plan, find func(*plan.Choice) *plan.Choice) (total, keeps catalog.Cents) {
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
		keeps += choice.Keeps(l.Choice, l.Fallback)
	}
	return comeTo(st, lines) - credits(st, pl, lines), keeps
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
	many := plan.BundlesOf(st, lines)
	for b := range st.Bundles {
		if on[p.BundleSwitch(b)] {
			total += catalog.Cents(many[b]) * st.Bundles[b].Price
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
