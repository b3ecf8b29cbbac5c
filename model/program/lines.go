package program

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Pair is a line of one slot, kept small because there can be very many: K and F
// are indices into the slot's choices, F is catalog.None where there is no
// fallback.
type Pair struct {
	K, F     int32
	Expected catalog.Cents
	Keeps    catalog.Cents // what the object's own pieces in it are worth: no money
}

// Weighed is what lines are compared by.
func (p Pair) Weighed() catalog.Cents { return p.Expected - p.Keeps }

// slotChoices is one slot's choices with what the lines need of them again and again.
type slotChoices struct {
	st           *catalog.State
	steady       *steady
	slot         int
	choices      []plan.Choice
	variant      []int32         // of every choice, catalog.None where it is none; nil where none is
	planned      []int32         // choices admitted as k
	reserve      []int32         // choices admitted as f
	fallbackCost []catalog.Cents // of every choice

	own map[int32][]ownLine // what was found out by ownLines
}

// newSlotChoices applies the rules on single choices.
func newSlotChoices(st *catalog.State, slot int, choices []plan.Choice, finds []int,
	t *steady) *slotChoices {
	b := &slotChoices{st: st, steady: t, slot: slot, choices: choices, fallbackCost: make([]catalog.Cents, len(choices))}
	for i := range choices {
		c := &choices[i]
		b.fallbackCost[i] = choice.FallbackCost(st, c)
		if Admitted(st, c, Planned) {
			b.planned = append(b.planned, int32(i))
		}
		if !slices.Contains(finds, c.Piece) && Admitted(st, c, Reserve) {
			b.reserve = append(b.reserve, int32(i))
		}
	}
	return b
}

// lines gives every line of the slot that keeps the rules on single lines, by k
// in the order of the choices, no fallback before the fallbacks in their order.
func (b *slotChoices) lines() []Pair {
	var all []Pair
	for _, k := range b.planned {
		if b.allowed(k, catalog.None) {
			all = append(all, b.pair(k, catalog.None))
		}
		for _, f := range b.reserve {
			if b.allowed(k, f) {
				all = append(all, b.pair(k, f))
			}
		}
	}
	return all
}

// allowed: f is another piece than k's; a choice that can't fail needs none; the
// date is kept; not both are certain to fail, where no fallback counts as
// certain to fail: p_k p_f < 1; and not both are variants.
func (b *slotChoices) allowed(k, f int32) bool {
	ck, cf := &b.choices[k], b.choice(f)
	if f != catalog.None && (ck.Fails == 0 || ck.Piece == cf.Piece) {
		return false
	}
	if f != catalog.None && b.variant != nil && b.variant[k] != catalog.None && b.variant[f] != catalog.None {
		return false
	}
	return choice.BothFail(ck, cf) < choice.Certain && choice.LineInTime(b.st, ck, cf)
}

// choice is nil for no fallback.
func (b *slotChoices) choice(f int32) *plan.Choice {
	if f == catalog.None {
		return nil
	}
	return &b.choices[f]
}

func (b *slotChoices) pair(k, f int32) Pair {
	fallback := choice.Rescue(b.st, b.slot)
	if f != catalog.None {
		fallback = b.fallbackCost[f]
	}
	ck := &b.choices[k]
	return Pair{k, f, ck.ExpectedCost + catalog.Of(ck.Fails, fallback), choice.Keeps(ck, b.choice(f))}
}
