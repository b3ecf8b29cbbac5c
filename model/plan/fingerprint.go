package plan

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"brightset/catalog"
)

// Fingerprint is a short name for a plan and the figures it rests on: two sheets that
// carry the same one are of the same plan on the same state.
func Fingerprint(st *catalog.State, plan *Plan) string {
	h := sha256.New()
	fmt.Fprintln(h, st.Revision, plan.Expected, plan.Outlay)
	for _, l := range KeptLines(st, plan) {
		fmt.Fprintln(h, l.Slot, l.KeptChoice, l.Fallback != nil)
		if l.Fallback != nil {
			fmt.Fprintln(h, *l.Fallback)
		}
	}
	sum := hex.EncodeToString(h.Sum(nil))
	return sum[:4] + "-" + sum[4:8]
}
