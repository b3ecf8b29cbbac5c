package program

import (
	"cmp"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
)

// Lines that share a spare are many, and each pair of classes is a column, so those
// that can be done without are left out first.
//
// (k, f), shared, goes if k has a line of its own that takes nothing anybody wants, is
// no riskier, and costs less by what sharing can save at most: the other slot then has
// the spare for itself.
//
// A, shared, makes B, shared with the same slot, needless if it is no worse in all that
// lines are compared by, fails no more, falls back on no riskier a choice, may wait for
// a rescue if B may, and
//
//	cost(A) + d <= cost(B),  d = most that yielding costs more with A than with B
//
// What yielding costs, (P_s P_t)(R - fallback), grows with the chance that the line
// fails, unless a rescue is cheaper than the spare; d makes up for that, for the
// difference of their spares, and for rounding: see margin.

// fewer leaves lines out on both sides, and the classes that have none left.
func (sp *spare) fewer(p *Program) {
	for side, slot := range sp.slots {
		b, j := p.Slots[slot], newDominance(p.State, slot, p.wants, p.Options, p.steady)
		o := sp.worst(1 - side)
		sp.withoutOutdone(side, o, b, j)
		sp.pruneAcross(side, o, b, j)
		sp.class[side] = slices.DeleteFunc(sp.class[side], func(c shareClass) bool { return len(c.lines) == 0 })
	}
}

// opposite is the most that the lines of the other side come to.
type opposite struct {
	fails catalog.Micro // greatest chance of failing
	dear  catalog.Cents // what the spare costs more than a rescue there, at most
}

func (sp *spare) worst(side int) opposite {
	o := opposite{}
	for i := range sp.class[side] {
		c := &sp.class[side][i]
		o.fails, o.dear = max(o.fails, c.Fails), max(o.dear, c.Weighed()-c.Rescue)
	}
	return o
}

// saves is the most that sharing can make a line of a class and the other's cheaper.
func (o opposite) saves(c *shareClass) catalog.Cents {
	return atMost(catalog.Both(c.Fails, o.fails), max(o.dear, c.Weighed()-c.Rescue))
}

// margin is the most that yielding can cost more if a line of class c stands in for one
// of d that fails as much or more:
//
//	c yields:      P_c P (fallback_d - fallback_c) + (P_d - P_c) P (fallback_d - R)
//	other yields:  (P_d - P_c) P (fallback - R) of the other
//
// with the other's greatest P, and each only if positive.
func (o opposite) margin(c, d *shareClass) catalog.Cents {
	own := atMost(catalog.Both(c.Fails, o.fails), d.Weighed()-c.Weighed())
	other := catalog.Cents(0)
	if c.Fails < d.Fails {
		more := catalog.Both(d.Fails-c.Fails, o.fails) + 1 // for rounding
		own += atMost(more, d.Weighed()-d.Rescue)
		other = atMost(more, o.dear)
	}
	return max(own, other)
}

// atMost is P m rounded up, with what is rounded of what is kept besides; nothing where m
// is not positive.
func atMost(p catalog.Micro, m catalog.Cents) catalog.Cents {
	if m <= 0 {
		return 0
	}
	return catalog.Of(p, m) + 2
}

// ownLine is what a choice k comes to with a fallback that takes nothing anybody wants.
type ownLine struct {
	cost catalog.Cents
	loss int64
}

// withoutOutdone leaves out the lines whose k does as well by itself. What a pair takes
// up of the completion row is, for rounding, at most one below its lines' sum, and not
// below the other's where this one takes up nothing.
func (sp *spare) withoutOutdone(side int, o opposite, b *slotChoices, j *dominance) {
	for i := range sp.class[side] {
		c := &sp.class[side][i]
		saves := o.saves(c)
		c.lines = slices.DeleteFunc(c.lines, func(l Pair) bool {
			return slices.ContainsFunc(b.ownLines(l.K, j), func(own ownLine) bool {
				return own.cost+saves <= l.Weighed() && (!j.counts.completion || own.loss == 0 || own.loss < c.Loss())
			})
		})
	}
}

// ownLines are the lines of k that use no contested piece as fallback, and no bundle but
// k's own; those that none of them beats in both, found out once.
func (b *slotChoices) ownLines(k int32, j *dominance) []ownLine {
	if list, known := b.own[k]; known {
		return list
	}
	var list []ownLine
	for _, f := range append([]int32{catalog.None}, b.reserve...) {
		if f != catalog.None {
			piece := b.choices[f].Piece
			bundle := b.st.Pieces[piece].Bundle
			if j.shared[piece] || bundle != catalog.None && bundle != b.st.Pieces[b.choices[k].Piece].Bundle {
				continue
			}
		}
		if b.allowed(k, f) {
			list = append(list,
				ownLine{b.pair(k, f).Weighed(), choice.LogLoss(choice.BothFail(&b.choices[k], b.choice(f)))})
		}
	}
	slices.SortFunc(list,
		func(x, y ownLine) int { return cmp.Or(cmp.Compare(x.cost, y.cost), cmp.Compare(x.loss, y.loss)) })
	least := int64(choice.Certain)
	list = slices.DeleteFunc(list, func(x ownLine) bool {
		worse := x.loss >= least
		least = min(least, x.loss)
		return worse
	})
	if b.own == nil {
		b.own = map[int32][]ownLine{}
	}
	b.own[k] = list
	return list
}

// ranking is a line that shares with all it is compared by.
type ranking struct {
	figures
	sig
	class int
	pair  Pair
}

// pruneAcross compares the lines of all classes of a side.
func (sp *spare) pruneAcross(side int, o opposite, b *slotChoices, j *dominance) {
	var all []ranking
	for i := range sp.class[side] {
		c := &sp.class[side][i]
		for _, l := range c.lines {
			all = append(all, ranking{j.figures(b, l, len(all)), j.sign(b, l), i, l})
		}
		c.lines = nil
	}
	slices.SortFunc(all, func(a, c ranking) int {
		return cmp.Or(cmp.Compare(a.cost, c.cost), cmp.Compare(a.tie[0], c.tie[0]),
			cmp.Compare(a.tie[1], c.tie[1]), cmp.Compare(a.line, c.line))
	})
	var kept []*ranking
	for i := range all {
		r := &all[i]
		if !slices.ContainsFunc(kept, func(a *ranking) bool { return sp.replaces(j, side, a, r, o) }) {
			kept = append(kept, r)
			c := &sp.class[side][r.class]
			c.lines = append(c.lines, r.pair)
		}
	}
}

// replaces says whether line a makes line r needless.
func (sp *spare) replaces(j *dominance, side int, a, r *ranking, o opposite) bool {
	c, d := &sp.class[side][a.class], &sp.class[side][r.class]
	if c.Fails > d.Fails || c.Spare > d.Spare || d.MayWait && !c.MayWait || !j.within(&a.sig, &r.sig) {
		return false
	}
	for _, x := range a.shared {
		if x != catalog.None && x != r.shared[0] && x != r.shared[1] {
			return false
		}
	}
	first := a.figures
	first.cost += o.margin(c, d)
	return j.noWorse(&first, &a.sig, &r.figures, &r.sig)
}
