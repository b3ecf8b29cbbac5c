package plan

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"

	"brightset/catalog"
)

// KeptLines writes a plan by names, as it is kept.
func KeptLines(plan *Plan) []catalog.KeptLine {
	var out []catalog.KeptLine
	for i := range plan.Lines {
		l := &plan.Lines[i]
		line := catalog.KeptLine{Slot: plan.SlotOf(l).ID, KeptChoice: keptChoice(plan.Of, l.Choice)}
		line.Expected = l.Expected
		if l.Fallback != nil {
			f := keptChoice(plan.Of, l.Fallback)
			line.Fallback = &f
		}
		out = append(out, line)
	}
	return out
}

func keptChoice(st *catalog.State, c *Choice) catalog.KeptChoice {
	k := catalog.KeptChoice{Piece: st.Pieces[c.Piece].Key(), Work: c.Work, Level: c.Level}
	if c.Plated() {
		k.Plater = st.Platers[c.Plater].ID
	}
	return k
}

// IsKept says whether the kept plan has a choice, to hang or in reserve.
func IsKept(st *catalog.State, c *Choice) bool {
	if st.Kept == nil {
		return false
	}
	want := keptChoice(st, c)
	for _, l := range st.Kept.Lines {
		if l.Slot != st.Slots[c.Slot].ID {
			continue
		}
		l.KeptChoice.Expected = 0
		if l.KeptChoice == want || (l.Fallback != nil && *l.Fallback == want) {
			return true
		}
	}
	return false
}

// Fingerprint is a short name for a plan and the figures it rests on: two sheets that
// carry the same one are of the same plan on the same state.
func Fingerprint(plan *Plan) string {
	h := sha256.New()
	fmt.Fprintln(h, plan.Of.Revision, plan.Expected, plan.Outlay)
	for _, l := range KeptLines(plan) {
		fmt.Fprintln(h, l.Slot, l.KeptChoice, l.Fallback != nil)
		if l.Fallback != nil {
			fmt.Fprintln(h, *l.Fallback)
		}
	}
	return shortHash(h)
}

func shortHash(h hash.Hash) string {
	sum := hex.EncodeToString(h.Sum(nil))
	return sum[:4] + "-" + sum[4:8]
}
