package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/solver/parallel"
)

// mostPairs bounds the pairs looked at.
const mostPairs = 12

// pairs looks at finds for slots of one match group or one part: what the two are
// worth together, where that differs from the sum.
func (h *hunt) pairs(ctx context.Context, out *Hunted) error {
	if !out.Plan.Has {
		return nil
	}
	var all []PairFind
	for a := range out.Finds {
		for b := a + 1; b < len(out.Finds) && len(all) < mostPairs; b++ {
			if h.akin(out.Finds[a].Slot, out.Finds[b].Slot) {
				all = append(all, PairFind{A: a, B: b})
			}
		}
	}
	plans := make([]*plan.Plan, len(all))
	share := newShares(ctx, len(all))
	err := parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		plans[i], err = h.ask(within, out.Finds[all[i].A].place, out.Finds[all[i].B].place)
		return err
	})
	for i, p := range all {
		if plans[i] == nil {
			out.Whole = false
			continue
		}
		p.weigh(out.Plan, plans[i])
		a, b := &out.Finds[p.A], &out.Finds[p.B]
		differs := p.Together > a.Most+b.Most || p.Most < a.Worth+b.Worth
		if plans[i].Has && differs {
			out.Pairs = append(out.Pairs, p)
		}
		if !differs && (p.Together < p.Most || a.Stopped || b.Stopped) {
			out.Whole = false // whether they are worth something else together is not known
		}
	}
	return err
}

// weigh compares the set as it is with the cheapest with both finds, free of charge.
func (p *PairFind) weigh(base, with *plan.Plan) {
	p.Together = base.Weighed() - with.Weighed()
	p.Most = p.Together
	if with.Status == solver.Stopped {
		p.Most = base.Weighed() - noneBelow(with)
	}
	if base.Status == solver.Stopped {
		p.Together = noneBelow(base) - with.Weighed()
	}
}

// akin says whether two different slots are seen together or take the same part.
func (h *hunt) akin(a, b int) bool {
	if a == b {
		return false
	}
	if h.st.Slots[a].Part == h.st.Slots[b].Part {
		return true
	}
	return slices.ContainsFunc(h.st.Matches, func(m catalog.Match) bool {
		return slices.Contains(m.Slots, a) && slices.Contains(m.Slots, b)
	})
}
