package record

import (
	"os"
	"regexp"
	"testing"

	"brightset/catalog"
	"brightset/model/risk"
)

// TestPaidToAgreed: what a plater asks in the end is compared with what he named, never with
// our own estimate of 40.00. A record that does not say whose the price was counts where a
// quote of that price is known.
func TestPaidToAgreed(t *testing.T) {
	back := func(piece, cost string) step { return step{"back", Facts{Target: piece, Cost: cost}} }
	for _, c := range []struct {
		name        string
		steps       []step
		n, oldN     int
		ratio       float64
		guessed     int // prices that were still open when it was sent
		oldAgreesTo float64
	}{
		{"our estimate", []step{{"sent", Facts{Target: "sound", To: "north"}}, back("sound", "50.00")}, 0, 0, 0, 1, 0},
		{"said when sent", []step{{"sent", Facts{Target: "sound", To: "north", Cost: "40.00"}}, back("sound", "50.00")}, 1, 0,
			1.25, 0, 0},
		{"a quote of the file", []step{{"sent", Facts{Target: "priced", To: "north"}}, back("priced", "50.00")}, 1, 1, 2, 1,
			2},
		{"a quote recorded", []step{{"quoted", Facts{Target: "sound", To: "north", Cost: "20.00", Level: "show",
			Grade: "90"}}, {"sent", Facts{Target: "sound", To: "north"}}, back("sound", "50.00")}, 1, 1, 2.5, 1, 2.5},
		{"priced after stripping", []step{{"sent", Facts{Target: "sound", To: "north", StripFirst: true}},
			{"stripped", Facts{Target: "sound"}},
			{"priced", Facts{Target: "sound", Cost: "100.00"}}, {"approved", Facts{Target: "sound"}}, back("sound", "110.00")},
			1, 1, 1.1, 1, 1.1},
		{"quoted and priced", []step{{"sent", Facts{Target: "priced", To: "north", StripFirst: true}},
			{"priced", Facts{Target: "priced", Cost: "100.00"}}, back("priced", "50.00")}, 1, 1, 2, 1, 2},
	} {
		d := laterRecorder(t)
		must(t, d, c.steps...)
		path := d.State.Job.File
		rate := risk.Learn(risk.Experiences(d.State), 20).Platers[0]
		if rate.PaidN != c.n || c.n > 0 && rate.Ratio != c.ratio {
			t.Errorf("%s: %.3f of %d, want %.3f of %d", c.name, rate.Ratio, rate.PaidN, c.ratio, c.n)
		}
		if rate.GuessN != c.guessed {
			t.Errorf("%s: %d open prices, want %d", c.name, rate.GuessN, c.guessed)
		}
		text, _ := os.ReadFile(catalog.JournalOf(path))
		old := regexp.MustCompile(`"quoted":(true|false|null),?`).ReplaceAll(text, nil)
		os.WriteFile(catalog.JournalOf(path), old, 0o644)
		d = recorderAt(t, path)
		rate = risk.Learn(risk.Experiences(d.State), 20).Platers[0]
		if len(d.State.Warnings) > 0 || rate.PaidN != c.oldN || c.oldN > 0 && rate.Ratio != c.oldAgreesTo {
			t.Errorf("%s, an old record: %.3f of %d, want %.3f of %d (%v)", c.name, rate.Ratio, rate.PaidN, c.oldAgreesTo,
				c.oldN, d.State.Warnings)
		}
	}
}
