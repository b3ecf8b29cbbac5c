package report

import (
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/paper"
	"brightset/model/plan"
)

// TestFindingWords: whoever gets the piece reads what is wrong with it, and what of that is mended.
func TestFindingWords(t *testing.T) {
	st := &catalog.State{Tables: catalog.BuiltIn()}
	post, works := catalog.None, map[string]int{}
	for i := range st.Tables.Works {
		works[st.Tables.Works[i].Name] = i
	}
	for i := range st.Tables.Defects {
		if st.Tables.Defects[i].Name == "missing post" {
			post = i
		}
	}
	f := catalog.Finding{Defect: post, Severity: catalog.Light, Count: 2, Where: catalog.Back}
	if got, want := findingText(st, &f), "missing post, light, 2 of them, on the back"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	f.Done = []int{works["new post"]}
	if got, want := findingText(st, &f), "missing post, light, 2 of them, on the back; new post is done"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestEveryConcernNamed: whatever there is to look at has a word of its own in JSON.
func TestEveryConcernNamed(t *testing.T) {
	seen := map[string]bool{}
	for k := range paper.ConcernGuess + 1 {
		if word := concernWords[k]; word == "" || seen[word] {
			t.Errorf("concern %d is called %q", k, word)
		}
		seen[concernWords[k]] = true
	}
}

// TestPriceAskedFirst: what is to be done stands first, since a line is cut at the edge of the screen.
func TestPriceAskedFirst(t *testing.T) {
	st := &catalog.State{Slots: []catalog.Slot{{Name: "hood crest"}, {Name: "beltline"}, {Name: "sill strip"}}}
	c := paper.Concern{Kind: paper.ConcernUnpriced, Slots: []int{0, 2}}
	got := concernText(&plan.Plan{Of: st}, &c)
	if want := "ask what it costs, it counts as free now: hood crest, sill strip"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestFindOutsOpen: of figures that are not proven nobody is told that they are worth less than others.
func TestFindOutsOpen(t *testing.T) {
	st := &catalog.State{}
	for _, whole := range []bool{true, false} {
		all := slices.Repeat([]ask.InformationValue{{Figure: ask.FigureRescue}}, mostFindOuts+2)
		text := findOuts(st, &Unknown{All: all, Whole: whole})
		if !strings.Contains(text, "2 figures more") || strings.Contains(text, "each worth less") != whole {
			t.Errorf("whole %v: %s", whole, text)
		}
	}
}
