package program

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// newDominance finds out what lines of a slot have to be compared by. Rows without a
// limit count too, unless the limits are known to stay as they are.
func newDominance(st *catalog.State, slot int, w wants, opt Options, t *steady) *dominance {
	j := &dominance{st: st, slot: slot, shared: w.shared, got: w.got, apart: slices.Contains(opt.Keep, slot),
		steady: t}
	j.counts.mean = !opt.FixedLimits || opt.Best || st.Job.Target.Mean.Set
	j.counts.completion = !opt.FixedLimits || st.Job.Completion.Set
	j.counts.budget = !opt.FixedLimits || st.Job.Budget.Set
	j.markedCent = markedCent(st, st.Quote.Plating)
	for i := range st.Matches {
		m := &st.Matches[i]
		if slices.Contains(m.Slots, slot) {
			j.grade = j.grade || m.GradeWithin.Set
			j.tone = j.tone || m.ToneWithin.Set
			j.fresh = j.fresh || m.FreshAlike
			j.platers = j.platers || m.SamePlater
		}
	}
	return j
}

// figures gives the numbers a line is compared by.
func (j *dominance) figures(b *slotChoices, p Pair, place int) figures {
	k := &b.choices[p.K]
	f := figures{
		line: place, cost: p.Weighed(), budgeted: budgeted(j.st, k, p),
		grade: Weighted(j.st, k), load: load(k), tie: j.steady.ties(k, b.choice(p.F)),
	}
	f.loss = choice.LogLoss(choice.BothFail(k, b.choice(p.F)))
	return f
}

// load is what a line adds to its plater's lot.
func load(k *plan.Choice) int64 {
	if !k.InLot() {
		return 0
	}
	return int64(k.Plate)
}

// sign gives the signature of a line. Values that need not agree are left zero,
// so that fewer signatures differ.
func (j *dominance) sign(b *slotChoices, p Pair) sig {
	k, f := &b.choices[p.K], b.choice(p.F)
	s := sig{
		shared: [2]int{catalog.None, catalog.None}, bundles: [2]int{catalog.None, catalog.None},
		plater: k.Plater, vendor: choice.DirectVendor(j.st, k), got: catalog.None, variant: b.variantOf(p.K, p.F),
	}
	if j.shared[k.Piece] {
		s.shared[1] = k.Piece
	}
	s.bundles[1] = j.st.Pieces[k.Piece].Bundle
	if f != nil {
		if j.shared[f.Piece] {
			s.shared[0] = f.Piece
		}
		s.bundles[0] = j.st.Pieces[f.Piece].Bundle
	}
	s.sentTo = catalog.None
	if !k.InLot() { // it turns no lot on
		s.plater = catalog.None
		if j.platers {
			s.sentTo = choice.PlatedBy(j.st, k)
		}
	}
	slices.Sort(s.shared[:])
	slices.Sort(s.bundles[:])
	if j.got[k.Piece] {
		s.got = k.Piece
	}
	if j.grade {
		s.gradeOf = k.Grade
	}
	if j.tone {
		s.toneOf = k.Tone
		if lot := choice.LotOf(j.st, k); lot.Sent && j.st.Platers[lot.Plater].Drift > 0 {
			s.lot = lot
		}
	}
	if j.fresh {
		s.freshOf = k.Fresh
	}
	if j.apart {
		s.choice = p.K
	}
	return s
}

// wants says which pieces more than one part of the program can lay claim to.
type wants struct {
	rows   []int  // pieces that need a row: the slots could use more than there are
	shared []bool // per piece: it has a row, or a trade gives it
	got    []bool // per piece: a trade gets it
	boxes  []moreBoxes
}

// findWants goes through all admitted choices.
func findWants(st *catalog.State, benches []*slotChoices, opt Options) wants {
	w := wants{shared: make([]bool, len(st.Pieces)), got: make([]bool, len(st.Pieces))}
	most := MostUsed(st, benches)
	for i := range st.Pieces {
		if most[i] > choice.PieceCount(&st.Pieces[i]) || slices.Contains(opt.Shared, i) {
			w.rows = append(w.rows, i)
			w.shared[i] = true
		}
	}
	w.boxes = findBoxes(st, most)
	for _, m := range w.boxes {
		w.shared[m.piece] = true
	}
	for _, i := range opt.Finds {
		w.shared[i], w.got[i] = true, true
	}
	for i := range st.Trades {
		w.shared[st.Trades[i].Give] = true
		w.got[st.Trades[i].Get] = true
	}
	return w
}

// MostUsed is, per piece, how many of it are used if every slot that can does.
func MostUsed(st *catalog.State, benches []*slotChoices) []int {
	most := make([]int, len(st.Pieces))
	for s, b := range benches {
		seen := map[int]bool{}
		for _, list := range [][]int32{b.planned, b.reserve} {
			for _, i := range list {
				if piece := b.choices[i].Piece; !seen[piece] {
					seen[piece] = true
					most[piece] += choice.Needed(&st.Slots[s])
				}
			}
		}
	}
	return most
}
