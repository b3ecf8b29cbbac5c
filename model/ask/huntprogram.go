package ask

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// hunt is one program that holds a piece for every find, each banned unless it is
// asked about.
type hunt struct {
	e     *program.Explorer
	st    *catalog.State // with the finds
	first int            // the finds' pieces come last
	finds []Find
}

func newHunt(ctx context.Context, st *catalog.State, slots []int, set solver.Settings) (*hunt, error) {
	h := &hunt{st: st.Clone(), first: len(st.Pieces)}
	var pieces []int
	for s := range st.Slots {
		if slots != nil && !slices.Contains(slots, s) {
			continue
		}
		for _, p := range ProfilesFor(st, s) {
			pieces = append(pieces, len(h.st.Pieces))
			h.st.Pieces = append(h.st.Pieces, imagined(st, s, p, len(h.finds)))
			h.finds = append(h.finds, Find{Slot: s, Profile: p, Metal: usualMetal(st, s), place: len(h.finds)})
		}
	}
	var err error
	h.e, err = program.NewExplorer(ctx, h.st, program.Options{FixedLimits: true, Finds: pieces}, set)
	return h, err
}

// order has the finds for the slots that cost most now come first: most can be saved
// there, should time run out.
func (h *hunt) order(base *plan.Plan) []int {
	order := make([]int, len(h.finds))
	for i := range order {
		order[i] = i
	}
	if base.Has {
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Compare(base.Lines[h.finds[b].Slot].Expected, base.Lines[h.finds[a].Slot].Expected)
		})
	}
	return order
}

// imagined is the piece of a find: free, at hand, of the metal that most pieces
// for the slot have.
func imagined(st *catalog.State, slot int, p Profile, n int) catalog.Piece {
	piece := catalog.Piece{
		ID: fmt.Sprintf("find-%d", n+1), Name: p.Name, Fits: []int{slot}, Kind: p.Kind, Side: catalog.Customers,
		Vendor: catalog.None, Bundle: catalog.None, Metal: usualMetal(st, slot), Quantity: choice.Needed(&st.Slots[slot]),
		Chance: catalog.One, Grade: p.Grade, Tried: true, // what doesn't fit is not bought
	}
	if p.Fresh {
		piece.Fresh = catalog.Val[bool]{V: true, Set: true}
	}
	return piece
}

// usualMetal is the metal of most pieces that fit a slot, of equals the first.
func usualMetal(st *catalog.State, slot int) int {
	count := make([]int, len(st.Tables.Metals))
	best := 0
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if m := p.Metal; m >= 0 && m < len(count) && choice.FitsSlot(p, slot) {
			if count[m]++; count[m] > count[best] {
				best = m
			}
		}
	}
	return best
}

// ban shuts out every line with a find that is not among those allowed, and in the
// slots of those allowed every line without them.
func (h *hunt) ban(allowed ...int) []solver.Pick {
	want := map[int]int{} // slot to piece
	for _, i := range allowed {
		want[h.finds[i].Slot] = h.first + i
	}
	var ban []solver.Pick
	for s := range h.e.Pairs {
		piece, forced := want[s]
		for i, pair := range h.e.Pairs[s] {
			k := h.e.Choices[s][pair.K].Piece
			if (forced && k != piece) || (!forced && k >= h.first) {
				ban = append(ban, solver.Pick{Group: s, Column: i})
			}
		}
	}
	return ban
}

func (h *hunt) ask(ctx context.Context, allowed ...int) (*plan.Plan, error) {
	return h.e.Fork().Ask(ctx, solver.Change{Ban: h.ban(allowed...)})
}
