package record

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestSetting: positions and platers that no file names are there once they are recorded, with
// what was said of them; and what can't be meant is refused, with what to type.
func TestSetting(t *testing.T) {
	path := demo(t)
	for _, s := range []step{
		{"slot", Facts{Target: "plain"}},
		{"slot", Facts{Target: "tail-left", Name: "left tail lamp rim", Area: "12 in2", Part: "tail"}},
		{"slot", Facts{Target: "tail-right", Part: "tail", With: "tail-left"}},
		{"slot", Facts{Target: "tail-third", With: "tail-right"}},
		{"plater", Facts{
			Target:   "weir",
			Name:     "Weir Plating",
			Minimum:  "80.00",
			Days:     "21",
			StripFee: "7.00",
			Hourly:   "50.00",
		}},
		{"plater", Facts{Target: "weir", Level: "show", Metal: "pot metal", Rate: "44.00", Grade: "90"}},
		{"plater", Facts{Target: "weir", Level: "show", Metal: "brass", Rate: "34.00", Grade: "nice"}},
	} {
		if err := do(t, recorderAt(t, path), s.name, s.facts); err != nil {
			t.Fatalf("%s %s: %v", s.name, s.facts.Target, err)
		}
	}
	st := recorderAt(t, path).State
	slots := map[string]*catalog.Slot{}
	for i := range st.Slots {
		slots[st.Slots[i].ID] = &st.Slots[i]
	}
	s := slots["tail-left"]
	if slots["plain"] == nil || s == nil || s.Name != "left tail lamp rim" || s.AreaWritten != "12 in2" ||
		s.Part != "tail" {
		t.Errorf("%+v", s)
	}
	m := st.Matches[len(st.Matches)-1]
	if len(m.Slots) != 3 || !m.SamePlater || st.Slots[m.Slots[2]].ID != "tail-third" {
		t.Errorf("%+v", m)
	}
	p := st.Platers[plater(t, st, "weir")]
	if p.Name != "Weir Plating" || p.Minimum != 80_00 || p.Days != 21 || p.StripFee != 7_00 || len(p.Levels) != 1 {
		t.Errorf("%+v", p)
	}
	rates := 0
	for i, r := range p.Levels[0].Rate {
		if r.Set {
			rates++
			if want := map[string]catalog.Cents{"pot metal": 44_00, "brass": 34_00}[st.Tables.Metals[i].Name]; r.V != want {
				t.Errorf("%s: %d", st.Tables.Metals[i].Name, r.V)
			}
		}
	}
	if rates != 2 {
		t.Errorf("%d rates", rates)
	}
	for _, c := range []struct {
		action string
		facts  Facts
		says   string
	}{
		{"slot", Facts{Target: "x", With: "tail-lefd"}, `did you mean "tail-left"`},
		{"slot", Facts{Target: "x", With: "x"}, "no other slot"},
		{"slot", Facts{Target: "x", Area: "3"}, "has no unit"},
		{"slot", Facts{Target: "tail-left"}, "nothing would change"},
		{"plater", Facts{Target: "weir", Rate: "3.00"}, "--level show"},
		{"plater", Facts{Target: "weir", Level: "show", Rate: "3.00"}, "--metal steel"},
		{"plater", Facts{Target: "weir", Level: "show", Metal: "brass"}, "--rate 40.00"},
		{"plater", Facts{Target: "weir", Level: "show", Metal: "bras", Rate: "3.00", Grade: "80"}, `did you mean "brass"`},
	} {
		if err := do(t, recorderAt(t, path), c.action, c.facts); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s %+v: %v, want %q", c.action, c.facts, err, c.says)
		}
	}
}

// TestPlaterOfOneJob: a plater who stands in a job's own file is changed there, for that job
// alone; one that another job records for the whole shop under the same name is told with what
// to do about it.
func TestPlaterOfOneJob(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	const job = "[job]\ntitle = \"t\"\nshop = \"shop.toml\"\n[slot.a]\n"
	write("shop.toml", "[shop]\n")
	own, other := write("own.toml", job+"[plater.weir]\nfreight = \"30.00\"\n"), write("other.toml", job)
	if err := do(t, recorderAt(t, own), "plater", Facts{Target: "weir", Freight: "12.00"}); err != nil {
		t.Fatal(err)
	}
	st := recorderAt(t, own).State
	if p := st.Platers[plater(t, st, "weir")]; p.Freight != 12_00 {
		t.Errorf("%+v", p)
	}
	if st = recorderAt(t, other).State; len(st.Platers) != 0 {
		t.Errorf("another job has %+v", st.Platers)
	}
	if err := do(t, recorderAt(t, other), "plater", Facts{Target: "weir", Freight: "14.00"}); err != nil {
		t.Fatal(err)
	}
	_, err := catalog.Load(own, catalog.Options{})
	if err == nil || !strings.Contains(err.Error(), "own.toml:5 another name, or take the other one back") {
		t.Error(err)
	}
}
