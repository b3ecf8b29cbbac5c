package choice

import (
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// What rules a piece out is told to the owner without what to write in the files.
func TestFaultWithoutFiles(t *testing.T) {
	for says, findings := range map[string][]catalog.Finding{
		"it can't hang until that is mended": {{ID: "a", Defect: jobs.Bent, Severity: catalog.Moderate,
			Extent: catalog.One, Count: 1, Where: catalog.Back}},
		"nobody has looked": nil,
	} {
		st := jobs.Tiny()
		st.Tables.Defects[jobs.Bent].Soundness = catalog.OfShape
		p := &st.Pieces[jobs.Other]
		p.Grade, p.Findings = catalog.Val[catalog.Centi]{}, findings
		outs := ExclusionsFor(st, jobs.Left)
		i := slices.IndexFunc(outs, func(o Exclusion) bool { return o.Piece == jobs.Other })
		if i < 0 {
			t.Fatal(says, "nothing is out")
		}
		o := &outs[i]
		if !strings.Contains(o.Fault, says) || strings.Contains(o.Fault, "harmless") ||
			strings.Contains(o.Fault, "give a") || o.Why == o.Fault {
			t.Errorf("%s: %+v", says, o)
		}
	}
}
