package catalog

import (
	"fmt"
	"slices"
)

// worksDone reads which of the works that mend a fault are done. One that doesn't mend it is
// no mistake, since the tables may have changed since it was recorded, but it does nothing.
func (l *loader) worksDone(t *table, f *Finding, metal int) []int {
	done := t.refs("done", l.works)
	if f.Defect == None {
		return done
	}
	d, mend := &l.state.Tables.Defects[f.Defect], l.state.Tables.Mending(f, metal)
	for _, w := range done {
		if !slices.Contains(mend, w) {
			l.warn(f.From, fmt.Sprintf("%s: %s is done, and does nothing for %s %s",
				t.what, l.state.Tables.Works[w].Name, f.Severity, d.Name))
		}
	}
	return done
}

// readFinding reads one fault of a piece of a metal.
func (l *loader) readFinding(t *table, metal int) Finding {
	f := Finding{ID: t.id, Defect: None, Severity: Moderate, Where: Face,
		Count: t.whole("count", 1, MaxQuantity).Or(1), From: t.here()}
	if t.need("defect", `write defect = "blisters" or another of the defect table`) {
		f.Defect = t.ref("defect", l.defects)
	}
	switch t.word("severity", Light.String(), Moderate.String(), Severe.String()) {
	case "light":
		f.Severity = Light
	case "severe":
		f.Severity = Severe
	}
	usual := One
	if f.Defect != None {
		d := &l.state.Tables.Defects[f.Defect]
		usual, f.Where = d.Usual, d.Where
	}
	f.Extent = t.share("extent").Or(usual)
	if w := t.word("where", string(Face), string(Edge), string(Back)); w != "" {
		f.Where = Where(w)
	}
	f.Harmless = t.flag("harmless")
	f.Done = l.worksDone(t, &f, metal)
	t.done()
	return f
}
