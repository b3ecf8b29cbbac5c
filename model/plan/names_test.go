package plan

import (
	"testing"

	"brightset/catalog"
)

// named is a state whose platers' names begin alike, or hold their ids.
func named(names ...[2]string) *catalog.State {
	st := &catalog.State{Slots: []catalog.Slot{{ID: "crest", Name: "hood crest"}}}
	for _, n := range names {
		st.Platers = append(st.Platers, catalog.Plater{ID: n[0], Name: n[1]})
	}
	st.Pieces = []catalog.Piece{{ID: "crest-2", Name: "spare, lower post gone", Quotes: []catalog.Quote{
		{ID: "may", Plater: 0, Level: "show"}, {ID: "june", Plater: 0, Level: "show"}, {ID: "north", Plater: 1}}}}
	st.Tables.Works = []catalog.Work{
		{Name: "new post", HasHad: "new post made"}, {Name: "refill", HasHad: "fill renewed",
			Order: catalog.Val[int]{V: catalog.PlatingOrder + 10, Set: true}}}
	return st
}

// TestBriefly: a plater goes by the word of his name that is typed for him, else by the
// first, and by the whole name where that is another's too.
func TestBriefly(t *testing.T) {
	st := named([2]string{"hollin", "Great Hollin Works"}, [2]string{"pell", "Pell Lane Die-Cast"},
		[2]string{"x", "The Crane, Platers"}, [2]string{"y", "Sumner & Niece"}, [2]string{"z", "Sumner Brothers"})
	for q, want := range []string{"Hollin", "Pell", "Crane", "Sumner & Niece", "Sumner Brothers"} {
		if got := Briefly(st, q); got != want {
			t.Errorf("%s is %q for short, not %q", st.Platers[q].Name, got, want)
		}
	}
}

// TestTold: a choice is told by the names of piece and plater, what is done before and
// after plating, and by the quote where there is more than one.
func TestTold(t *testing.T) {
	st := named([2]string{"hollin", "Great Hollin Works"}, [2]string{"pell", "Pell Lane Die-Cast"})
	both := []Part{{Work: 0}, {Work: catalog.None}, {Work: 1}}
	for _, c := range []struct {
		of   Choice
		want string
	}{
		{Choice{Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}, "as it is"},
		{Choice{Work: catalog.WorkClean, Plater: catalog.None, Quote: catalog.None, Parts: both[:1]}, "cleaned"},
		{Choice{Work: catalog.WorkRepair, Plater: 0, Level: "show", Quote: catalog.None, Parts: both},
			"Hollin, show finish, new post made first, fill renewed after"},
		{Choice{Work: catalog.WorkReplate, Plater: 0, Level: "show", Quote: 1}, "Hollin, show finish, by his quote june"},
		{Choice{Work: catalog.WorkReplate, Plater: 1, Quote: 2}, "Pell, by his quote"},
	} {
		if got := Told(st, &c.of); got != "spare, lower post gone (crest-2), "+c.want {
			t.Errorf("%q, not %q", got, c.want)
		}
	}
}

// TestWithoutSwaps: two slots whose choices change places at the same cost are no change;
// they are one where they come to another sum, or where another reserve stands behind them.
func TestWithoutSwaps(t *testing.T) {
	a := &Choice{Piece: 0, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	b := &Choice{Piece: 1, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	spare := &Choice{Piece: 2, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	was := []Line{{Slot: 0, Choice: a, Expected: 500}, {Slot: 1, Choice: b, Expected: 700}, {Slot: 2, Choice: spare}}
	for _, c := range []struct {
		name string
		now  []Line
		left int
	}{
		{"places alone", []Line{{Slot: 0, Choice: b, Expected: 700}, {Slot: 1, Choice: a, Expected: 500}}, 0},
		{"dearer there", []Line{{Slot: 0, Choice: b, Expected: 700}, {Slot: 1, Choice: a, Expected: 501}}, 2},
		{"with a reserve", []Line{{Slot: 0, Choice: b, Expected: 700, Fallback: spare},
			{Slot: 1, Choice: a, Expected: 500}}, 2},
		{"one of them", []Line{{Slot: 0, Choice: b, Expected: 700}, {Slot: 1, Choice: b, Expected: 700}}, 1},
	} {
		now := append(c.now, was[2])
		if left := WithoutSwaps(Differences(&Plan{Lines: was}, &Plan{Lines: now})); len(left) != c.left {
			t.Errorf("%s: %d changes are told, not %d", c.name, len(left), c.left)
		}
	}
}
