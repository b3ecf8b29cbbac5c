package record

import (
	"os"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestBehindUs: a maker has straightened a piece for 100.00 (1 h) before it went; taken back
// unplated, by the plater or by us, it is not straightened again: neither money, nor days,
// nor breaking. What is found later is work all the same.
func TestBehindUs(t *testing.T) {
	for _, act := range []string{"recalled", "refused"} {
		dir := swift(t)
		shop := strings.Replace(laterShop, "days = 20", "days = 20\nworks = [\"fill pits\"]", 1) + `[maker.smith]
hourly = "100.00"
works = ["straighten"]
days = 9
[work.straighten]
hours = 1
each = 0
per_dm2 = 0
breakage = { steel = 0.1 }
`
		bent := "[piece.sound.finding.bent]\ndefect = \"bend\"\nseverity = \"light\"\n"
		for name, text := range map[string]string{"job.toml": laterJob + bent, "shop.toml": shop} {
			if err := os.WriteFile(dir+"/"+name, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		d := recorderAt(t, dir+"/job.toml")
		c := platedChoice(t, d.State, "sound")
		if c == nil || c.Before != 100_00 || c.Days != 29 || c.Breakage != 100_000 {
			t.Fatalf("before it goes: %+v", c)
		}
		must(t, d, step{"sent", Facts{Target: "sound", To: "north", StripFirst: true}},
			step{"stripped", Facts{Target: "sound"}}, step{act, Facts{Target: "sound"}})
		if act == "refused" {
			must(t, d, step{"unban", Facts{Target: "sound"}})
		}
		c = platedChoice(t, d.State, "sound")
		if c == nil || c.Before != 0 || c.Days != 20 || c.Breakage != 0 || c.Work != catalog.WorkRepair {
			t.Fatalf("%s: done, and planned again: %+v", act, c)
		}
		spent := d.State.Job.SpentSum
		must(t, d, step{"found", Facts{Target: "sound", Defect: "bend", Severity: "light"}})
		if c = platedChoice(t, d.State, "sound"); c == nil || c.Before != 100_00 {
			t.Fatalf("%s: bent again, and not planned: %+v", act, c)
		}
		must(t, d, step{"sent", Facts{Target: "sound", To: "north"}}, step{"approved", Facts{Target: "sound"}})
		if got := d.State.Job.SpentSum - spent; got != 140_00 {
			t.Errorf("%s: sent again for %d, want 14000", act, got)
		}
	}
}
