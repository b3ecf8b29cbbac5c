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
// of spares, which are screened before.
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
// worth what they cost to find out, so that few are left to solve for.
//
// Whatever such a figure turns out to be, the plan carried out regardless costs what it
// costs now; so it is worth at most what the cheapest set then costs less. Many are
// tried together: every choice stays, and beside it stands what would become of it, one
// copy for each way of each figure. That set of choices holds those of every single way,
// so the cheapest set out of it is no dearer than any of theirs. If it saves too
// little, none of them is worth its fee; else the halves are tried. It is of no account
// whether a way makes things better, worse, or some of both.
func mayBeWorthAsking(ctx context.Context, plan *plan.Plan, spares []uncertain,
	base *program.Explorer) ([]uncertain, error) {
	if len(spares) == 0 {
		return nil, nil
	}
	if ctx.Err() != nil {
		return spares, nil
	}
	st := base.State
	least := spares[0].worthwhile(st)
	var ways []program.Variant
	var pieces []int
	for i := range spares {
		o := &spares[i]
		least, pieces = min(least, o.worthwhile(st)), append(pieces, o.Piece)
		for _, w := range o.ways {
			if !w.worse {
				ways = append(ways, program.Variant{Piece: o.Piece, Plater: o.Plater, Change: w.choice})
			}
		}
	}
	then := base.Again(st, program.Options{Beside: ways, GiveUp: program.Over(ctx)}, pieces...)
	_, most, err := savedBy(ctx, base, then, plan.Weighed(), least)
	if err != nil {
		return nil, err
	}
	spares = slices.DeleteFunc(slices.Clone(spares), func(o uncertain) bool { return o.worthwhile(st) > most })
	if len(spares) <= 1 {
		return spares, nil
	}
	half := len(spares) / 2
	halves := [][]uncertain{spares[:half], spares[half:]}
	may := make([][]uncertain, 2)
	err = parallel.Do(ctx, 2, func(i int) (err error) {
		may[i], err = mayBeWorthAsking(ctx, plan, halves[i], base)
		return err
	})
	if ctx.Err() != nil {
		return spares, err
	}
	return slices.Concat(may...), err
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
	return max(1, o.fee(st)*catalog.Cents(catalog.One)/catalog.Cents(likely))
}
