package sheet

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
)

// A name with | in it would come back as two, so there is no table then.
func TestExportRefuses(t *testing.T) {
	for _, photo := range []string{"a|b.jpg", " a.jpg", "a.jpg\t"} {
		st := load(t, "../../testdata/demo/job.toml")
		st.Pieces[0].Photos = []string{"good.jpg", photo}
		for _, w := range All {
			text, err := Export(st, w, Writing{})
			if refused := err != nil && text == "" && strings.Contains(err.Error(), st.Pieces[0].ID); refused != (w == Pieces) {
				t.Errorf("%q, %s: %v", photo, w, err)
			}
		}
	}
}

// Handwork has no column, and is named; what a piece fits without it is there.
func TestByHand(t *testing.T) {
	st := load(t, "../../testdata/demo/job.toml")
	if ids := ByHand(st, Pieces); len(ids) > 0 {
		t.Fatalf("the demo has handwork: %v", ids)
	}
	p := &st.Pieces[0]
	p.Fit = []catalog.Fit{{Slot: 3}}
	p.Fits = append(p.Fits, 3)
	for w, want := range map[What][]string{Pieces: {p.ID}, Leads: nil, Findings: nil, Quotes: nil} {
		if got := ByHand(st, w); !slices.Equal(got, want) {
			t.Errorf("%s: %v", w, got)
		}
	}
	if got := fits(st, p); slices.Contains(got, st.Slots[3].ID) {
		t.Errorf("handwork counts as fitting: %v", got)
	}
}

// Names that a spreadsheet writes in another way are guarded, others are not.
func TestRisky(t *testing.T) {
	for text, want := range map[string]bool{
		"1-2": true, "3E5": true, "007": true, "2026-11-02": true, "1 1/2": true, ".5": true, "5 %": true, "$5": true,
		"3 PM": true, "3pm": true,
		"1234567890123456": true, "=x": true, " =x": true, "' =x": true, "#N/A": true, "#ref!": true, "TRUE": true,
		"Mar 5, 2026": true,
		"":            false, "12": false, "0": false, "1a": false, "2nd": false, "rl-1": false, "march": false,
		"50\" wide": false,
		"12 mm":     false, "#4": false, "a=b": false,
	} {
		if risky(text) != want {
			t.Errorf("risky(%q) is %v", text, !want)
		}
	}
}

// Where there is no such folder, the folder is named and not a file of ours.
func TestNoFolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "none", "in.toml")
	if _, err := writeBeside(path, "x"); err == nil || !strings.Contains(err.Error(), "there is no folder") ||
		strings.Contains(err.Error(), ".brightset-") {
		t.Error(err)
	}
}
