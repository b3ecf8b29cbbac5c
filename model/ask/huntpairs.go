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
		plans[i], err = h.ask(within, h.place(&out.Finds[all[i].A]), h.place(&out.Finds[all[i].B]))
		return err
	})
	for i, p := range all {
		if plans[i] == nil || plans[i].Status == solver.Stopped {
			out.Whole = false // what they are worth together is not known
			continue
		}
		p.Together = out.Plan.Weighed() - plans[i].Weighed()
		if out.Finds[p.A].Stopped || out.Finds[p.B].Stopped {
			continue // what they are worth one by one is not known
		}
		if plans[i].Has && p.Together != out.Finds[p.A].Worth+out.Finds[p.B].Worth {
			out.Pairs = append(out.Pairs, p)
		}
	}
	return err
}

func (h *hunt) place(f *Find) int {
	return slices.IndexFunc(h.finds, func(g Find) bool { return g.Slot == f.Slot && g.Profile.Name == f.Profile.Name })
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
