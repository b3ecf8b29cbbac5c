package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver/parallel"
)

// ownAndSpares are the figures that are asked about whatever they are, the plan's own among them, and those
// of spares, which are looked at after.
func ownAndSpares(figures []uncertain) (own, spares []uncertain) {
	for _, o := range figures {
		if o.Planned || o.ways[0].choice == nil {
			own = append(own, o)
		} else {
			spares = append(spares, o)
		}
	}
	return own, spares
}

// mayBeWorthAsking leaves out figures of spares, which the plan makes no use of, that can't be
// worth what they cost to find out, so that few are left to solve for. What costs nothing to
// find out stays.
//
// Whatever such a figure turns out to be, the plan carried out regardless costs what it
// costs now; so it is worth at most what the cheapest set then costs less. They are tried
// together: of all their ways the one that saves most. If that is too little for its figure,
// so are all other ways of it; else the figure stays. Either way it is through with, and
// the rest are tried again, until nothing saves enough for any.
func mayBeWorthAsking(ctx context.Context, pl *plan.Plan, spares []uncertain,
	base *program.Explorer) (good []uncertain, err error) {
	st := base.State
	ways := slices.DeleteFunc(waysOf(spares), func(w asking) bool { return w.of.Fee(st) == 0 })
	groups, single := contests(ways)
	tried, stays := map[*uncertain]bool{}, map[*uncertain]bool{}
	for _, w := range slices.Concat(groups...) {
		tried[w.of] = true
	}
	for _, w := range single {
		tried[w.of] = false
	}
	found := make([][]*uncertain, len(groups))
	err = parallel.Do(ctx, len(groups), func(i int) error {
		c, err := newContest(ctx, base, pl, groups[i])
		if err == nil {
			found[i], err = c.screened(ctx, st)
		}
		return err
	})
	for _, o := range slices.Concat(found...) {
		stays[o] = true
	}
	for i := range spares {
		if o := &spares[i]; !tried[o] || stays[o] {
			good = append(good, *o)
		}
	}
	return good, err
}

// worthwhile is the least that a figure has to save, in every way that is not for the
// worse, to be worth more than its fee on average; at least a cent.
func (o *uncertain) worthwhile(st *catalog.State) catalog.Cents {
	likely := catalog.Micro(0)
	for _, w := range o.ways {
		if !w.worse {
			likely += w.likely
		}
	}
	if likely == 0 {
		return catalog.Cents(catalog.MaxSum)
	}
	return max(1, o.Fee(st)*catalog.Cents(catalog.One)/catalog.Cents(likely))
}
