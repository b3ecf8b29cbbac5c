package model

import (
	"context"

	"brightset/catalog"
)

// screened leaves out figures that can't be worth what they cost to find out, so that
// few are left to solve for. A turn for the worse is worth at most what the plan then
// costs more, since no set gets cheaper by it. Turns for the better of pieces that the
// plan makes no use of are tried together: if not even all of them bring a cheaper set,
// none does; else the halves are tried.
func screened(ctx context.Context, st *catalog.State, plan *Plan, figures []open, c *clock) ([]open, error) {
	var kept, spares []open
	for _, o := range figures {
		switch {
		case o.Planned && o.onlyWorseMatters():
			if o.worseAtMost(st, plan) > o.fee(st) {
				kept = append(kept, o)
			}
		case !o.Planned && o.grows(st):
			spares = append(spares, o)
		default:
			kept = append(kept, o)
		}
	}
	good, err := promising(ctx, st, plan, spares, c)
	return append(kept, good...), err
}

// onlyWorseMatters says whether none of the ways is for the better.
func (o *open) onlyWorseMatters() bool {
	for _, w := range o.ways {
		if !w.worse || w.choice == nil {
			return false
		}
	}
	return true
}

func (o *open) worseAtMost(st *catalog.State, plan *Plan) catalog.Cents {
	sum := catalog.Cents(0)
	for _, w := range o.ways {
		find := func(c *Choice) *Choice {
			k := *c
			w.choice(&k)
			k.addUp()
			return &k
		}
		sum += catalog.Of(w.likely, max(0, carriedOut(st, plan, find)-plan.Expected))
	}
	return sum
}

// grows says whether the first way, the best, makes every line with the piece cheaper
// or no dearer, whatever stands in for it, and keeps out of no rule what was in it.
func (o *open) grows(st *catalog.State) bool {
	if o.ways[0].choice == nil || o.Figure == FigureGrade {
		return false
	}
	for _, c := range Choices(st) {
		for i := range c {
			was, now := c[i], c[i]
			o.ways[0].choice(&now)
			now.addUp()
			for _, standin := range []catalog.Cents{0, 2 * rescue(st, was.Slot)} {
				if now.Paid+catalog.Of(now.Fails, standin) > was.Paid+catalog.Of(was.Fails, standin) {
					return false
				}
			}
		}
	}
	return true
}

// promising are the figures of spares whose best way brings a cheaper set.
func promising(ctx context.Context, st *catalog.State, plan *Plan, spares []open, c *clock) ([]open, error) {
	if len(spares) == 0 {
		return nil, nil
	}
	set, ok := c.next()
	if !ok {
		return spares, nil
	}
	all := turnout{choice: func(c *Choice) {
		for i := range spares {
			spares[i].ways[0].choice(c)
		}
	}}
	gain, proven, err := gainOf(ctx, st, plan, &all, set)
	switch {
	case err != nil:
		return nil, err
	case proven && gain == 0:
		return nil, nil
	case len(spares) == 1:
		return spares, nil
	}
	half := len(spares) / 2
	first, err := promising(ctx, st, plan, spares[:half], c)
	if err != nil {
		return nil, err
	}
	second, err := promising(ctx, st, plan, spares[half:], c)
	return append(first, second...), err
}
