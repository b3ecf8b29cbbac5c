package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
)

// findingText is a fault in words: "blisters, severe, over 60% of the face".
func findingText(st *catalog.State, f *catalog.Finding) string {
	d := &st.Tables.Defects[f.Defect]
	text := fmt.Sprintf("%s, %s", d.Name, f.Severity)
	where := map[catalog.Where]string{catalog.Face: "the face", catalog.Edge: "the edge",
		catalog.Back: "the back"}[f.Where]
	if d.Measure == catalog.ByCount {
		if f.Count > 1 {
			text += fmt.Sprintf(", %d of them", f.Count)
		}
		text += ", on " + where
	} else {
		text += fmt.Sprintf(", over %s of %s", strings.Replace(Percent(f.Extent), ".0%", "%", 1), where)
	}
	for _, w := range f.Done {
		text += "; " + st.Tables.Works[w].Name + " is done"
	}
	return text
}

func findingTexts(st *catalog.State, p *catalog.Piece) []string {
	var all []string
	for i := range p.Findings {
		all = append(all, findingText(st, &p.Findings[i]))
	}
	return all
}

// oneLine undoes the wrapping of a paragraph.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// gradeText is a grade with its word: "92, show".
func gradeText(st *catalog.State, g catalog.Centi) string {
	text := catalog.FormatCenti(g)
	if w := gradeWord(st, g); w != "" {
		text += ", " + w
	}
	return text
}

// metalText is what a piece is made of.
func metalText(st *catalog.State, p *catalog.Piece) string {
	if p.Metal == catalog.None {
		return "not known: ask before you strip it"
	}
	return st.Tables.Metals[p.Metal].Name
}

// fileName makes an id into the name of a file.
func fileName(prefix, id string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(id) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r == '-':
			b.WriteRune(r)
		default:
			b.WriteByte('-')
		}
	}
	name := strings.Trim(b.String(), "-")
	if name == "" {
		name = "x"
	}
	return prefix + "-" + name
}
