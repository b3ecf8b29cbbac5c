package program

import (
	"brightset/model/sharedspare"
)

// spare is a piece that two slots may hold together. On each side stand the classes
// of lines that are alike to the other side, in cells of one class or more: the columns
// of the group that ties them are none, and a pair of cells each.
type spare struct {
	piece int
	slots [2]int
	class [2][]shareClass
	cells [2][]shareCell
	pairs []cellPair
	group int
}

// shareClass is the lines of a slot that fall back on one choice of the spare and fail
// with one chance.
type shareClass struct {
	sharedspare.Sharer
	f     int32
	lines []Pair
	cell  int
}

// sharedLine says what a line that shares belongs to.
type sharedLine struct{ spare, side, class int }

// findSpares looks for all that two slots may hold together, and adds the lines that
// share to the slots' lines: after those that hold a fallback for themselves. Only
// pieces that are contested are looked at; of the others each slot has one of its own.
func (p *Program) findSpares() {
	defer p.makeCells()
	p.sharing = make([][]sharedLine, len(p.State.Slots))
	for _, piece := range p.wants.rows {
		for t := range p.State.Slots {
			for s := range t {
				if p.Options.GiveUp != nil && p.Options.GiveUp() {
					p.GaveUp = true
					return
				}
				p.addSpare(piece, s, t)
			}
		}
	}
}

// addSpare adds a spare if there is a pair of lines that can share it.
func (p *Program) addSpare(piece, s, t int) {
	sp := spare{piece: piece, slots: [2]int{s, t}}
	for side, slot := range sp.slots {
		sp.class[side] = p.Slots[slot].shareClasses(piece)
	}
	if !p.Options.AllLines && !p.keepingApart() { // lines are compared by what is weighed alone
		sp.fewer(p)
	}
	sp.withoutLonely()
	if len(sp.class[0]) == 0 {
		return
	}
	for side, slot := range sp.slots {
		for i := range sp.class[side] {
			c := &sp.class[side][i]
			for range c.lines {
				p.sharing[slot] = append(p.sharing[slot], sharedLine{len(p.spares), side, i})
			}
			p.Pairs[slot] = append(p.Pairs[slot], c.lines...)
		}
	}
	p.spares = append(p.spares, sp)
}

// shareClasses sorts the lines of a slot that fall back on a piece into classes.
func (b *slotChoices) shareClasses(piece int) []shareClass {
	type key struct {
		sharedspare.Sharer
		f int32
	}
	var all []shareClass
	place := map[key]int{}
	for _, f := range b.reserve {
		if b.choices[f].Piece != piece {
			continue
		}
		for _, k := range b.planned {
			if !b.allowed(k, f) {
				continue
			}
			h := sharedspare.SharerOf(b.st, &b.choices[k], &b.choices[f])
			at, known := place[key{h, f}]
			if !known {
				at = len(all)
				place[key{h, f}] = at
				all = append(all, shareClass{Sharer: h, f: f})
			}
			all[at].lines = append(all[at].lines, b.pair(k, f))
		}
	}
	return all
}

// withoutLonely leaves out the classes that can share with no other.
func (sp *spare) withoutLonely() {
	used := [2][]bool{make([]bool, len(sp.class[0])), make([]bool, len(sp.class[1]))}
	for i := range sp.class[0] {
		for j := range sp.class[1] {
			if !used[0][i] || !used[1][j] {
				_, ok := sharedspare.PairUp(sp.class[0][i].Sharer, sp.class[1][j].Sharer)
				used[0][i], used[1][j] = used[0][i] || ok, used[1][j] || ok
			}
		}
	}
	for side := range sp.class {
		var kept []shareClass
		for i, c := range sp.class[side] {
			if used[side][i] {
				kept = append(kept, c)
			}
		}
		sp.class[side] = kept
	}
}
