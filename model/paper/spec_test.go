package paper

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// stateOf loads a job's file with that text.
func stateOf(t *testing.T, text string) *catalog.State {
	t.Helper()
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	st, err := catalog.Load(path, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// specJob has one slot for every metal of the trade tables and a quote for each, so that
// all can be plated.
func specJob(t *testing.T, service string) *catalog.State {
	t.Helper()
	var b strings.Builder
	b.WriteString("[job]\ntitle = \"x\"\n" + service + "\n[plater.north]\n")
	for i, metal := range []string{"steel", "pot metal", "brass", "stainless steel", "aluminium", "plastic",
		"unknown"} {
		id := string(rune('a' + i))
		b.WriteString("[slot." + id + "]\narea = \"2 dm2\"\n[piece.p" + id + "]\nfits = [\"" + id +
			"\"]\nkind = \"original\"\nmetal = \"" + metal + "\"\n" +
			"[piece.p" + id + ".quote.q]\nplater = \"north\"\ncost = \"10.00\"\ngrade = 90\n")
	}
	return stateOf(t, b.String())
}

// platedChoice is the first plated choice of a slot.
func platedChoice(t *testing.T, st *catalog.State, slot int) *plan.Choice {
	t.Helper()
	list := choice.Choices(st)[slot]
	for i := range list {
		if list[i].Plated() {
			return &list[i]
		}
	}
	t.Fatalf("slot %s: nothing is plated", st.Slots[slot].ID)
	return nil
}

// TestLayers: the code, where it comes from and the layers of every kind of metal, and where
// there is none, why.
func TestLayers(t *testing.T) {
	st := specJob(t, `service = "severe"`)
	for slot, want := range [][]string{
		{"Fe/Ni30d Cr r", "Surface Finishing Guidebook",
			"double nickel, 30 um (1.2 mil); regular chromium, 0.3 um (0.012 mil)"},
		{"Zn/Cu5 Ni25d Cr r", "from memory", "copper, 5 um (0.2 mil); double nickel, 25 um"},
		{"Cu/Ni30d Cr r", "the line for SC4, as none is at hand for SC3"},
		{"no table was seen for stainless steel", "copper first is not needed"},
		{"no table was seen for aluminium", "copper goes on first"},
		{"no table was seen for plastic: ask the plater"},
		{"a code needs the metal"},
	} {
		spec, text := SpecOf(st, slot, platedChoice(t, st, slot).Piece)
		if text == "" {
			text = spec.Code.String() + " " + spec.Origin() + " " + strings.Join(spec.Layers(true), "; ")
		}
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("slot %s does not say %q:\n%s", st.Slots[slot].ID, w, text)
			}
		}
		if st.Slots[slot].ID != "b" && strings.Contains(text, " copper, ") {
			t.Errorf("slot %s gets copper first:\n%s", st.Slots[slot].ID, text)
		}
	}
	spec, _ := SpecOf(st, 0, 0)
	if text := strings.Join(spec.Layers(false), "; "); strings.Contains(text, "mil") {
		t.Errorf("inches for somebody who doesn't use them: %s", text)
	}
}

// Without a service there is nothing to print; a slot's own goes before the job's.
func TestSpecService(t *testing.T) {
	st := specJob(t, "")
	if s, why := SpecOf(st, 0, platedChoice(t, st, 0).Piece); s.Service != 0 || why == "" {
		t.Errorf("without a service: %v %q", s, why)
	}
	st = stateOf(t, "[job]\ntitle = \"x\"\nservice = \"mild\"\n[slot.own]\nservice = \"SC4\"\n[slot.jobs]\n"+
		"[piece.a]\nfits = [\"own\", \"jobs\"]\nkind = \"original\"\nmetal = \"steel\"\ngrade = 50\n")
	for slot, want := range []string{"Fe/Ni40d Cr r", "Fe/Ni10b Cr r"} {
		if s, why := SpecOf(st, slot, 0); s.Code.String() != want || why != "" {
			t.Errorf("%s: %s %s, want %s", st.Slots[slot].ID, s.Code, why, want)
		}
	}
}

// Other kinds of chromium are offered on the same line only, and no table goes further
// than it does.
func TestSpecOthers(t *testing.T) {
	for service, want := range map[string]string{
		"mild": "Fe/Ni10b Cr r", "severe": "Fe/Ni30d Cr r Fe/Ni25d Cr mp Fe/Ni25d Cr mc",
		"SC5": "Fe/Ni35d Cr mp Fe/Ni35d Cr mc",
	} {
		st := specJob(t, `service = "`+service+`"`)
		s, _ := SpecOf(st, 0, 0)
		got := s.Code.String()
		for _, o := range s.Others {
			got += " " + o.Code.String()
		}
		if got != want {
			t.Errorf("%s: %s, want %s", service, got, want)
		}
		if _, why := SpecOf(st, 2, 2); service == "SC5" &&
			!strings.Contains(why, "no table goes as far as SC5, extended severe for brass") {
			t.Errorf("brass in SC5: %q", why)
		}
	}
}

// Every metal of the tables that has a basis is one that the built-in tables know.
func TestBasesAreMetals(t *testing.T) {
	st := specJob(t, "")
	known := map[string]bool{}
	for i := range st.Tables.Metals {
		known[st.Tables.Metals[i].Name] = true
	}
	for metal := range bases {
		if !known[metal] {
			t.Errorf("no table has the metal %q", metal)
		}
	}
}
