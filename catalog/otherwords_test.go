package catalog

import (
	"slices"
	"testing"
)

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
		{"damaged thread", defects, "stripped thread"}, {"Worn Threads", defects, "stripped thread"},
		{"brassing", defects, "base showing"}, {"WARPED", defects, "twist"}, {"chipped", defects, ""},
		{"bent", defects, "bend"}, {"Bent", defects, "bend"},
		{"Mazak", metals, "pot metal"}, {"zamak", metals, "pot metal"}, {"yellow metal", metals, "brass"},
		{"Cast Brass", metals, "brass"}, {"NOS", kinds, "old-stock"}, {"nos", kinds, "old-stock"},
	} {
		if got := Closest(tt.said, tt.words); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.said, got, tt.want)
		}
	}
	for said, word := range otherWords {
		if plainWord(word) == plainWord(said) {
			t.Errorf("%q stands for itself", said)
		}
	}
}

// TestUnsureWords: a word that means now one fault, now another, leads to neither, but names
// both; and every word that leads somewhere is listed with where it leads.
func TestUnsureWords(t *testing.T) {
	words := []string{"dent", "jagged edge", "missing fill"}
	if got := meant("Chipped", words, ""); got != `did you mean "jagged edge" or "missing fill"?` {
		t.Error(got)
	}
	if got := meant("chipped", words[:2], "look"); got != "look" {
		t.Errorf("of one of the two alone: %s", got)
	}
	if got := OtherWords("pot metal"); !slices.Contains(got, "mazak") || !slices.Contains(got, "zamak") {
		t.Error(got)
	}
	if got := OtherWords("missing fill"); !slices.Contains(got, "chipped") {
		t.Error(got)
	}
}

// TestMissingPostIsBehind: a missing post is on the back unless the finding says otherwise.
func TestMissingPostIsBehind(t *testing.T) {
	for says, want := range map[string]Where{"": Back, "where = \"edge\"\n": Edge} {
		text := head + piece + "[piece.p.finding.f]\ndefect = \"missing post\"\n" + says +
			"[piece.p.finding.g]\ndefect = \"dent\"\n"
		st, err := loadFrom(map[string][]byte{"job.toml": []byte(text), "shop.toml": nil})
		if err != nil {
			t.Fatal(err)
		}
		if got := st.Pieces[0].Findings; got[0].Where != want || got[1].Where != Face {
			t.Errorf("%q: %s, the dent %s", says, got[0].Where, got[1].Where)
		}
	}
}
