package program

import (
	"strings"

	"brightset/catalog"
	"brightset/model/plan"
)

// steady tells which of the lines that cost the same keeps to what was decided: what the plan
// kept last has comes first, and where that doesn't say, a piece in its own place before one
// that changes places with another. Less is better.
type steady struct {
	st    *catalog.State
	kept  []*catalog.KeptLine // per slot, nil where there is none
	slots []map[string]bool   // per slot, what its names say of its side
	sides []map[string]bool   // the same per piece
	step  int64               // what one more costs in the first tie key: more than all grades together
}

// mostUnsteady is the most that one line may be off.
const mostUnsteady = 3*3 + 2

// newSteady reads the kept plan and the names.
func newSteady(st *catalog.State) *steady {
	t := &steady{st: st, kept: make([]*catalog.KeptLine, len(st.Slots)), step: TotalWeight(st)*100_00 + 1}
	if t.step > 1<<50/int64(len(st.Slots)*mostUnsteady*len(st.Slots)+1) {
		t.step = 0 // sums have to stay exact
	}
	if st.Kept != nil {
		for i := range st.Kept.Lines {
			if s, ok := st.SlotIndex(st.Kept.Lines[i].Slot); ok {
				t.kept[s] = &st.Kept.Lines[i]
			}
		}
	}
	for s := range st.Slots {
		t.slots = append(t.slots, sidesOf(st.Slots[s].ID+" "+st.Slots[s].Name))
	}
	for i := range st.Pieces {
		t.sides = append(t.sides, sidesOf(st.Pieces[i].ID+" "+st.Pieces[i].Name))
	}
	return t
}

// ties order lines of equal total: the steadier, then the higher grade, then the lower cash.
// f is nil where nothing is held.
func (t *steady) ties(k, f *plan.Choice) [2]int64 {
	return [2]int64{t.off(k, f)*t.step - Weighted(t.st, k), int64(k.Cash)}
}

// off is how far a line is off what was decided. What the kept plan has weighs more than all
// places in the set together.
func (t *steady) off(k, f *plan.Choice) int64 {
	return t.fromKept(k, f)*int64(2*len(t.st.Slots)+1) + t.place(k)
}

// fromKept: 0 as the kept plan has it, 1 with another reserve, 2 the same piece otherwise
// worked on, 3 another piece.
func (t *steady) fromKept(k, f *plan.Choice) int64 {
	line := t.kept[k.Slot]
	switch {
	case line == nil:
		return 0
	case t.st.Pieces[k.Piece].Key() != line.Piece:
		return 3
	case !plan.AsKept(t.st, &line.KeptChoice, k):
		return 2
	case t.heldAsKept(line, f):
		return 0
	}
	return 1
}

func (t *steady) heldAsKept(line *catalog.KeptLine, f *plan.Choice) bool {
	if line.Fallback == nil || f == nil {
		return line.Fallback == nil && f == nil
	}
	return plan.AsKept(t.st, line.Fallback, f)
}

// holds says whether the kept plan holds a choice in reserve for a slot.
func (t *steady) holds(f *plan.Choice) bool {
	line := t.kept[f.Slot]
	return line != nil && line.Fallback != nil && plan.AsKept(t.st, line.Fallback, f)
}

// place: 0 where a piece is named for the side that the slot is on, 1 where names say
// nothing, 2 where they name another side.
func (t *steady) place(k *plan.Choice) int64 {
	off := int64(1)
	for side := range t.sides[k.Piece] {
		if t.slots[k.Slot][side] {
			return 0
		}
		if t.slots[k.Slot][otherSide[side]] {
			off = 2
		}
	}
	return off
}

// otherSide has the words by which pieces of a pair are told apart.
var otherSide = map[string]string{"left": "right", "right": "left", "front": "rear", "rear": "front", "upper": "lower",
	"lower": "upper", "inner": "outer", "outer": "inner", "bow": "stern", "stern": "bow", "port": "starboard",
	"starboard": "port"}

// sidesOf are the words for a side in a name.
func sidesOf(name string) map[string]bool {
	sides := map[string]bool{}
	for _, word := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r < 'a' || r > 'z' }) {
		if otherSide[word] != "" {
			sides[word] = true
		}
	}
	return sides
}
