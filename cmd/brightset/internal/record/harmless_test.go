package record

import (
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
)

// TestFoundHarmless: a fault of fastening found on a piece keeps it from hanging, unless it is
// recorded as harmless.
func TestFoundHarmless(t *testing.T) {
	for _, harmless := range []bool{false, true} {
		d := laterRecorder(t)
		must(t, d, step{"found", Facts{Target: "sound", Defect: "missing post", Harmless: harmless}})
		i, _ := d.State.FindPiece("sound")
		hangs := false
		for _, c := range choice.Choices(d.State)[0] {
			hangs = hangs || c.Piece == i && c.Work == catalog.WorkAsIs
		}
		if hangs != harmless {
			t.Errorf("harmless %v, hangs %v", harmless, hangs)
		}
	}
}
