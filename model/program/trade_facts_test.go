package program

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/plan"
	"brightset/solver"
)

// fact is something every restorer knows, as a small job in testdata/trade that
// is decided through findings and the built-in tables. Common practice, no
// published source.
type fact struct {
	says  string // the fact in one sentence
	job   string // its folder
	cases []outcome
}

// outcome is what has to be decided, once the edits are made. The first of a
// fact has none; at least one of the others turns the decision round.
type outcome struct {
	name  string
	edits []edit
	want  string // "SLOT: PIECE WORK [PLATER LEVEL] [/ FALLBACK]; ...", then trades made; "none" if infeasible
}

// edit is a change to the job's file or to the shop's: every old text is
// replaced, and it must occur in one of the two only, lest a change of a price
// changes a rate as well.
type edit struct{ old, new string }

func TestFactsOfTheTrade(t *testing.T) {
	told := map[string]bool{}
	for _, f := range slices.Concat(facts, factsOfWorks, factsOfPieces) {
		told[f.job] = true
		t.Run(f.job, func(t *testing.T) {
			turned := false
			for i, c := range f.cases {
				turned = turned || c.want != f.cases[0].want
				if i == 0 != (len(c.edits) == 0) {
					t.Errorf("%s: the first case has no edits, the others have", c.name)
				}
				t.Run(strings.ReplaceAll(c.name, " ", "-"), func(t *testing.T) {
					if got := decided(t, f.load(t, c.edits)); got != c.want {
						t.Errorf("%s\n got %s\nwant %s", f.says, got, c.want)
					}
				})
			}
			if !turned {
				t.Error("no case turns the decision round, so the fact can't be seen to fail")
			}
		})
	}
	folders, err := filepath.Glob(filepath.Join("..", "..", "testdata", "trade", "*", "job.toml"))
	if err != nil || len(folders) == 0 {
		t.Fatal("no jobs found", err)
	}
	for _, path := range folders {
		if name := filepath.Base(filepath.Dir(path)); !told[name] {
			t.Errorf("testdata/trade/%s belongs to no fact", name)
		}
	}
}

// load reads the job with the edits made to it and to the shop.
func (f *fact) load(t *testing.T, edits []edit) *catalog.State {
	t.Helper()
	from, dir := filepath.Join("..", "..", "testdata", "trade"), t.TempDir()
	var texts [2]string
	for i, path := range []string{filepath.Join(from, f.job, "job.toml"), filepath.Join(from, "shop.toml")} {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		texts[i] = string(text)
	}
	for _, e := range edits {
		in := 0
		if strings.Contains(texts[1], e.old) {
			in = 1
		}
		if !strings.Contains(texts[in], e.old) || strings.Contains(texts[1-in], e.old) {
			t.Fatalf("%q has to occur in one of the files of %s", e.old, f.job)
		}
		texts[in] = strings.ReplaceAll(texts[in], e.old, e.new)
	}
	texts[0] = strings.ReplaceAll(texts[0], "../shop.toml", "shop.toml")
	for i, name := range []string{"job.toml", "shop.toml"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(texts[i]), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	st, err := catalog.Load(filepath.Join(dir, "job.toml"), catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// decided solves a job and puts what was decided in words.
func decided(t *testing.T, st *catalog.State) string {
	t.Helper()
	pl, err := Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if pl.Status == solver.Infeasible && !pl.Has {
		return "none"
	}
	if pl.Status != solver.Optimal {
		t.Fatalf("%v: %v", pl.Status, pl.Reasons)
	}
	for _, v := range check.Check(st, pl) {
		t.Error(v)
	}
	var words []string
	for i := range pl.Lines {
		words = append(words, st.Slots[pl.Lines[i].Slot].ID+": "+wordsOf(st, &pl.Lines[i]))
	}
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargeTrade {
			words = append(words, "trade "+st.Trades[c.Of].ID)
		}
	}
	return strings.Join(words, "; ")
}

// wordsOf is a line as "PIECE WORK PLATER LEVEL / FALLBACK".
func wordsOf(st *catalog.State, l *plan.Line) string {
	c := l.Choice
	s := st.PieceLabel(c.Piece) + " " + c.Work
	if c.Plated() {
		s += " " + st.Platers[c.Plater].ID + " " + c.Level
	}
	if l.Fallback != nil {
		s += " / " + st.PieceLabel(l.Fallback.Piece)
	}
	return s
}

// TestWordsMeetTheirTargets: a set whose every piece is called nice is a nice
// set, and so on for every target that has a word of its own.
func TestWordsMeetTheirTargets(t *testing.T) {
	tables := catalog.BuiltIn()
	words := map[string]catalog.Centi{}
	for _, w := range tables.Grades {
		words[w.Name] = w.Value
	}
	for _, target := range tables.Targets {
		grade, ok := words[target.Name]
		if !ok || grade < target.Floor.V || grade < target.Mean.V {
			t.Errorf("%s: floor %d, mean %d, the word means %d", target.Name, target.Floor.V, target.Mean.V, grade)
		}
	}
}
