package catalog

import (
	"strings"
	"testing"
)

func TestBuiltInTables(t *testing.T) {
	tables := BuiltIn()
	if len(tables.Metals) < 6 || len(tables.Defects) < 16 || len(tables.Works) < 10 || len(tables.Targets) != 4 ||
		len(tables.Grades) < 5 || len(tables.Tones) < 4 {
		t.Errorf("%d metals, %d defects, %d works, %d targets, %d grades, %d tones", len(tables.Metals), len(tables.Defects),
			len(tables.Works), len(tables.Targets), len(tables.Grades), len(tables.Tones))
	}
	for _, name := range []string{"steel", "brass", "pot metal", "aluminium", "stainless steel", "copper"} {
		if i, ok := tables.MetalIndex(name); !ok || !tables.Metals[i].Base.Set {
			t.Errorf("metal %q is missing or has no base", name)
		}
	}
	for _, name := range []string{"nickel showing", "scratches", "haze", "blisters", "pits", "eaten edge", "eaten hole",
		"jagged edge", "dent", "twist",
		"bend", "thinned", "crack", "missing chunk", "missing post", "wrong post", "worn lettering"} {
		if _, ok := tables.DefectIndex(name); !ok {
			t.Errorf("defect %q is missing", name)
		}
	}
	used := map[int]bool{}
	for _, d := range tables.Defects {
		for s, at := range d.By {
			for _, w := range at.Works {
				used[w] = true
			}
			if !at.Points.Set || !at.Cap.Set {
				t.Errorf("%s, %v: no points or no cap", d.Name, Severity(s))
			}
			if at.Polishes.V && (len(at.Works) > 0 || at.Beyond.V) {
				t.Errorf("%s, %v: polishes out and yet needs work", d.Name, Severity(s))
			}
			if s == 0 {
				continue
			}
			if less := d.By[s-1]; at.Cap.V > less.Cap.V || at.Points.V < less.Points.V || at.Polishes.V && !less.Polishes.V ||
				less.Beyond.V && !at.Beyond.V {
				t.Errorf("%s: %v is milder than the one before", d.Name, Severity(s))
			}
		}
		if d.Describe == "" {
			t.Errorf("defect %q is not described", d.Name)
		}
	}
	for i, w := range tables.Works {
		if w.Name == CleanWork {
			used[i] = true
		}
		if !used[i] || w.Describe == "" {
			t.Errorf("work %q is used by no defect or not described", w.Name)
		}
		for m, b := range w.Breakage {
			if !b.Set {
				t.Errorf("work %q has no breakage for %s", w.Name, tables.Metals[m].Name)
			}
		}
	}
}

// Faults as every restorer knows them.
func TestBuiltInKnowsTheTrade(t *testing.T) {
	tables := BuiltIn()
	at := func(name string) *Defect { i, _ := tables.DefectIndex(name); return &tables.Defects[i] }
	nickel := at("nickel showing")
	for s, by := range nickel.By {
		if by.Polishes.V || by.Cap.V > 65_00 {
			t.Errorf("nickel showing, %v: %+v", Severity(s), by)
		}
	}
	if !nickel.Progressive || !at("blisters").Progressive || at("dent").Progressive {
		t.Error("what goes on growing is wrong")
	}
	if !at("scratches").By[Light].Polishes.V || at("scratches").By[Severe].Polishes.V {
		t.Error("light scratches polish out, deep ones don't")
	}
	if !at("thinned").By[Severe].Beyond.V || !at("missing chunk").By[Severe].Beyond.V ||
		at("eaten hole").By[Severe].Beyond.V {
		t.Error("what is beyond repair is wrong")
	}
	pot, _ := tables.MetalIndex("pot metal")
	steel, _ := tables.MetalIndex("steel")
	untwist, _ := tables.WorkIndex("untwist")
	if b := tables.Works[untwist].Breakage; b[pot].V < 250_000 || b[steel].V > 50_000 {
		t.Errorf("untwisting pot metal breaks %v, steel %v", b[pot].V, b[steel].V)
	}
	if r := at("blisters").Refused; r[pot].V <= r[steel].V {
		t.Error("blistered pot metal is refused more often than steel")
	}
}

func TestBuiltInSaysThatItIsUnpublished(t *testing.T) {
	for _, name := range builtIn {
		text, err := embedded.ReadFile("tables/" + name + ".toml")
		if err != nil || !strings.HasPrefix(string(text), "# Starting values. Common practice, no published source.\n") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What keeps a piece from hanging, whatever it looks like. No work of the trade is trusted
// with a load until somebody qualified says so.
func TestBuiltInSoundness(t *testing.T) {
	tables := BuiltIn()
	want := map[string]Soundness{"bend": OfShape, "twist": OfShape, "missing post": OfFastening, "wrong post": OfFastening,
		"stripped thread": OfFastening, "crack": OfStrength, "thinned": OfStrength, "old repair": OfStrength,
		"casting rot": OfStrength, "eaten hole": OfStrength, "missing chunk": OfStrength}
	for i := range tables.Defects {
		d := &tables.Defects[i]
		if of := want[d.Name]; d.Soundness != of && (of != "" || d.Soundness != OfFinish) {
			t.Errorf("%s is of %s", d.Name, d.Soundness)
		}
	}
	if i, _ := tables.DefectIndex("crack"); !tables.Defects[i].Progressive {
		t.Error("a crack goes on growing")
	}
	for _, w := range tables.Works {
		if w.Restores.V {
			t.Errorf("%s restores strength", w.Name)
		}
	}
}
