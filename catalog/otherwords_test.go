package catalog

import "testing"

// Words of the trade lead to the right word, in any capitals, with spaces or hyphens or
// neither. A wrong nudge is worse than none: a missing stud is no missing chunk.
func TestOtherWordsOfTheTrade(t *testing.T) {
	tables := BuiltIn()
	var defects, metals []string
	for i := range tables.Defects {
		defects = append(defects, tables.Defects[i].Name)
	}
	for i := range tables.Metals {
		metals = append(metals, tables.Metals[i].Name)
	}
	kinds := []string{string(Original), string(OldStock), string(Reproduction)}
	for _, tt := range []struct {
		said  string
		words []string
		want  string
	}{
		{"missing stud", defects, "missing post"}, {"Missing Studs", defects, "missing post"},
		{"rust through", defects, "eaten hole"}, {"rust-through", defects, "eaten hole"},
		{"brassing", defects, "base showing"}, {"WARPED", defects, "twist"}, {"chipped", defects, "jagged edge"},
		{"bent", defects, "bend"}, {"Bent", defects, "bend"},
		{"Mazak", metals, "pot metal"}, {"zamak", metals, "pot metal"}, {"yellow metal", metals, "brass"},
		{"Cast Brass", metals, "brass"}, {"NOS", kinds, "old-stock"}, {"nos", kinds, "old-stock"},
	} {
		if got := Closest(tt.said, tt.words); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.said, got, tt.want)
		}
	}
	for said, word := range otherWords {
		if said != plainWord(said) {
			t.Errorf("%q is looked for without capitals, spaces and hyphens", said)
		}
		if plainWord(word) == said {
			t.Errorf("%q stands for itself", said)
		}
	}
}
