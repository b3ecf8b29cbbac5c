package record

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

const laterJob = `[job]
title = "what stripping shows"
shop = "shop.toml"
[slot.a]
area = "1 dm2"
rescue = "900.00"
[piece.eaten]
fits = ["a"]
kind = "original"
metal = "pot metal"
[piece.sound]
fits = ["a"]
kind = "original"
metal = "steel"
[piece.priced]
fits = ["a"]
kind = "original"
metal = "steel"
[piece.priced.quote.old]
plater = "north"
cost = "25.00"
level = "show"
grade = 97
breakage = 0
refused = 0
`

const laterShop = `[shop]
hourly = "50.00"
[plater.north]
days = 20
[plater.north.level.show]
rate = { "pot metal" = "40.00", steel = "40.00" }
grade = { "pot metal" = 97, steel = 97 }
[metal.steel]
base = 0
`

// laterRecorder is a recorder with the job above.
func laterRecorder(t *testing.T) *catalog.Recorder {
	t.Helper()
	dir := swift(t)
	for name, text := range map[string]string{"job.toml": laterJob, "shop.toml": laterShop} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return recorderAt(t, filepath.Join(dir, "job.toml"))
}

func must(t *testing.T, d *catalog.Recorder, steps ...step) {
	t.Helper()
	for _, s := range steps {
		if err := do(t, d, s.name, s.facts); err != nil {
			t.Fatalf("%s %s: %v", s.name, s.facts.Target, err)
		}
	}
}

// platedChoice is the only thing a plater can do with a piece, nil where he can do nothing.
func platedChoice(t *testing.T, st *catalog.State, piece string) *plan.Choice {
	t.Helper()
	var one *plan.Choice
	i, _ := st.FindPiece(piece)
	for _, c := range choice.Choices(st)[0] {
		if c.Piece == i && c.Plated() {
			if one != nil {
				t.Fatalf("%s can be plated in more than one way", piece)
			}
			one = &c
		}
	}
	return one
}

// TestMendedBearsNoMore: a piece that comes back mended shows no fault, and hangs; it still
// bears less than when it was new, and that goes with it on the next trip too.
func TestMendedBearsNoMore(t *testing.T) {
	d := laterRecorder(t)
	hangs := func() *plan.Choice {
		i, _ := d.State.FindPiece("priced")
		for _, c := range choice.Choices(d.State)[0] {
			if c.Piece == i && c.Work == catalog.WorkAsIs {
				return &c
			}
		}
		return nil
	}
	must(t, d, step{"found", Facts{Target: "priced", Defect: "crack", Severity: "severe"}},
		step{"quoted", Facts{Target: "priced", To: "north", Cost: "30.00", Work: "repair-replate", Level: "show"}},
		step{"sent", Facts{Target: "priced", To: "north", Work: "repair-replate"}})
	if c := platedChoice(t, d.State, "priced"); c == nil || !c.Weak {
		t.Fatalf("at the plater's: %+v", c)
	}
	must(t, d, step{"back", Facts{Target: "priced", Grade: "90"}})
	if c := hangs(); c == nil || !c.Weak {
		t.Errorf("back: %+v", c)
	}
	must(t, d, step{"sent", Facts{Target: "priced", To: "north", StripFirst: true}},
		step{"recalled", Facts{Target: "priced"}})
	if c := hangs(); c == nil || !c.Weak {
		t.Errorf("back once more: %+v", c)
	}
	must(t, d, step{"sent", Facts{Target: "sound", To: "north"}}, step{"back", Facts{Target: "sound", Grade: "90"}})
	for _, c := range choice.Choices(d.State)[0] {
		if i, _ := d.State.FindPiece("sound"); c.Piece == i && c.Weak {
			t.Errorf("nothing was ever wrong with it: %+v", c)
		}
	}
}

// TestEatenThrough: a piece that turns out to be beyond repair once it is stripped is not
// planned any more, neither at the plater's nor when it is back from him.
func TestEatenThrough(t *testing.T) {
	d := laterRecorder(t)
	must(t, d, step{"sent", Facts{Target: "eaten", To: "north", StripFirst: true}})
	if platedChoice(t, d.State, "eaten") == nil {
		t.Fatal("he can't go on though nothing was found")
	}
	must(t, d, step{"stripped", Facts{Target: "eaten", Defect: "casting rot", Severity: "severe"}})
	if c := platedChoice(t, d.State, "eaten"); c != nil {
		t.Errorf("it is eaten through and still planned: %+v", c)
	}
	plan, err := program.Solve(context.Background(), d.State, solver.Settings{})
	if i, _ := d.State.FindPiece("eaten"); err != nil || plan.Lines[0].Choice.Piece == i ||
		plan.Lines[0].Fallback != nil && plan.Lines[0].Fallback.Piece == i {
		t.Errorf("%v %+v", err, plan)
	}
	must(t, d, step{"recalled", Facts{Target: "eaten"}})
	if c := platedChoice(t, d.State, "eaten"); c != nil {
		t.Errorf("it is back, eaten through, and still planned: %+v", c)
	}
}

// TestPitsUnderThePlating: pits that stripping shows cost what filling them costs, break and
// are refused as often as such pits are, and leave no more than filled pits can.
//
// Filling: 0.4 h + 0.9 h/dm2 x 0.2 x 1 dm2 = 0.58 h at 50.00 = 29.00, on top of 40.00; it
// breaks 1 in 100 of steel, 15 in 1000 are sent back for severe pits, and the cap is 95.
func TestPitsUnderThePlating(t *testing.T) {
	pits := step{"stripped", Facts{Target: "sound", Defect: "pits", Severity: "severe"}}
	for _, c := range []struct {
		name            string
		steps           []step
		plate, spent    catalog.Cents
		breaks, refused catalog.Micro
		grade           catalog.Centi
	}{
		{"stripped", []step{{"sent", Facts{Target: "sound", To: "north", StripFirst: true}}, pits}, 69_00, 0, 10_000, 15_000,
			95_00},
		{"found there", []step{{"sent", Facts{Target: "sound", To: "north", StripFirst: true}}, {"found", pits.facts}}, 69_00,
			0, 10_000, 15_000, 95_00},
		{"cleared again", []step{{"sent", Facts{Target: "sound", To: "north", StripFirst: true}}, pits,
			{"cleared", Facts{Target: "sound", Defect: "pits"}}}, 40_00, 0, 0, 0, 97_00},
		{"told to go ahead before", []step{{"sent", Facts{Target: "sound", To: "north"}},
			{"approved", Facts{Target: "sound"}}, pits}, 29_00, 40_00, 10_000, 15_000,
			95_00},
		{"told to go ahead after", []step{{"sent", Facts{Target: "sound", To: "north", StripFirst: true}}, pits,
			{"approved", Facts{Target: "sound"}}}, 0, 69_00, 10_000, 0, 95_00},
		{"he named his price", []step{{"sent", Facts{Target: "sound", To: "north", StripFirst: true}}, pits,
			{"priced", Facts{Target: "sound", Cost: "80.00"}}}, 80_00, 0, 10_000, 0, 95_00},
		{"priced and told", []step{{"sent", Facts{Target: "sound", To: "north", StripFirst: true}}, pits,
			{"priced", Facts{Target: "sound", Cost: "80.00", Grade: "96", Breakage: "0.02"}},
			{"approved", Facts{Target: "sound"}}}, 0, 80_00, 20_000, 0, 96_00},
		{"plated", []step{{"sent", Facts{Target: "sound", To: "north"}}, {"approved", Facts{Target: "sound"}}, pits,
			{"plated", Facts{Target: "sound"}}}, 29_00, 40_00, 0, 0, 95_00},
		{"known before", []step{{"found", pits.facts}, {"sent", Facts{Target: "sound", To: "north", StripFirst: true}}},
			69_00, 0, 10_000, 15_000, 95_00},
		{"twice", []step{{"found", Facts{Target: "sound", Defect: "pits", Severity: "severe", Extent: "0.1"}},
			{"sent", Facts{Target: "sound", To: "north", StripFirst: true}},
			{"stripped", Facts{Target: "sound", Defect: "pits", Severity: "severe", Extent: "0.1"}}}, 69_00, 0, 10_000, 15_000,
			95_00},
	} {
		d := laterRecorder(t)
		must(t, d, c.steps...)
		k := platedChoice(t, d.State, "sound")
		if k == nil || k.Plate != c.plate || d.State.Job.SpentSum != c.spent || k.Breakage != c.breaks ||
			k.Refused != c.refused || k.Grade != c.grade {
			t.Errorf("%s: spent %d, %+v", c.name, d.State.Job.SpentSum, k)
		}
	}
	d := laterRecorder(t)
	must(t, d, step{"sent", Facts{Target: "sound", To: "north"}}, pits, step{"approved", Facts{Target: "sound"}},
		step{"plated", Facts{Target: "sound"}}, step{"back", Facts{Target: "sound"}})
	if i, _ := d.State.FindPiece("sound"); d.State.Job.SpentSum != 69_00 || d.State.Pieces[i].Grade.V != 95_00 {
		t.Errorf("back: spent %d, grade %d", d.State.Job.SpentSum, d.State.Pieces[i].Grade.V)
	}
}

// TestPriceOvertaken: a price named before stripping showed what has to be mended stands no
// more; one named after it does.
func TestPriceOvertaken(t *testing.T) {
	d := laterRecorder(t)
	if c := platedChoice(t, d.State, "priced"); c.Plate != 25_00 {
		t.Fatalf("%+v", c)
	}
	must(t, d, step{"stripped", Facts{Target: "priced"}})
	if c := platedChoice(t, d.State, "priced"); c.Plate != 25_00 || c.Grade != 97_00 {
		t.Errorf("nothing was found, and the price changed: %+v", c)
	}
	must(t, d, step{"found", Facts{Target: "priced", Defect: "pits", Severity: "severe"}})
	if c := platedChoice(t, d.State, "priced"); c.Quote != catalog.None || c.Plate != 69_00 || c.Grade != 95_00 {
		t.Errorf("the price of a sound piece stands for a pitted one: %+v", c)
	}
	must(t, d, step{"quoted", Facts{Target: "priced", To: "north", Level: "show", Cost: "55.00", Grade: "95"}})
	if c := platedChoice(t, d.State, "priced"); c.Quote == catalog.None || c.Plate != 55_00 {
		t.Errorf("a price named for it as it is does not stand: %+v", c)
	}
}
