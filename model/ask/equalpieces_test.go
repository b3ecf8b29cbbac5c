package ask

import (
	"math/rand/v2"
	"reflect"

	"brightset/catalog"
	"brightset/model/plan"
)

// equalPieces says, from the words, whether two pieces of a random job are alike in all
// but name, number, and the file they stand in. A piece that a lock, ban or trade names
// is like none.
func equalPieces(st *catalog.State, a, b int) bool {
	if a == b {
		return true
	}
	for _, t := range st.Trades {
		if t.Give == a || t.Give == b || t.Get == a || t.Get == b {
			return false
		}
	}
	for _, l := range st.Locks {
		if l.Piece == a || l.Piece == b {
			return false
		}
	}
	for _, x := range st.Bans {
		if x.Piece == a || x.Piece == b {
			return false
		}
	}
	p, q := st.Pieces[a], st.Pieces[b]
	p.ID, q.ID = "", ""
	p.Quantity, q.Quantity = 0, 0
	p.InShop, q.InShop = false, false
	return reflect.DeepEqual(p, q)
}

// otherwise counts the slots of a set of lines that a plan fills otherwise, from the words:
// each line takes one away of the plan's that does the same with an equal piece, if
// there is one left.
func otherwise(st *catalog.State, x *plan.Plan, lines []*plan.Choice) int {
	left := make([]*plan.Choice, 0, len(lines))
	for i := range x.Lines {
		left = append(left, x.Lines[i].Choice)
	}
	for _, k := range lines {
		for i, c := range left {
			if k.Work == c.Work && k.Plater == c.Plater && k.Level == c.Level && k.Quote == c.Quote &&
				equalPieces(st, k.Piece, c.Piece) {
				left = append(left[:i:i], left[i+1:]...)
				break
			}
		}
	}
	return len(left)
}

// withEquals puts pieces beside some of a job that are equal to them, and lets bags and
// those fit every slot.
func withEquals(st *catalog.State, seed int64) {
	r := rand.New(rand.NewPCG(uint64(seed), 5))
	all := make([]int, len(st.Slots))
	for s := range all {
		all[s] = s
	}
	for i := range st.Pieces[:len(st.Pieces):len(st.Pieces)] {
		p := &st.Pieces[i]
		if p.Quantity > 1 && r.IntN(2) == 0 {
			p.Fits, p.Fit = all, nil
		}
		if len(st.Pieces) < 9 && r.IntN(4) == 0 {
			p.Fits, p.Fit = all, nil
			twin := *p
			twin.ID += "-twin"
			st.Pieces = append(st.Pieces, twin)
		}
	}
}
