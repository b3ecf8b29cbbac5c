package record

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/risk"
	"brightset/testdata/campaign"
)

// moving are the acts after which a piece is somewhere else or in another state, by the
// words of the record.
var moving = []string{"sent", "stripped", "priced", "approved", "plated", "refused", "recalled", "back", "hung",
	"unhung", "broke", "lost", "sold"}

// still are acts on a piece, and others, that may be written down in any order.
var still = []step{
	{"fitted", Facts{Target: "sound"}},
	{"ban", Facts{Target: "sound", Work: "clean"}},
	{"lock", Facts{Target: "a", Piece: "sound"}},
	{"unlock", Facts{Target: "a"}},
	{"spent", Facts{Target: "wax", Cost: "12.00"}},
	{"note", Facts{Target: "the owner rang"}},
	{"found", Facts{Target: "eaten", Defect: "pits", Severity: "light"}},
	{"sent", Facts{Target: "eaten", To: "north"}},
}

// TestDaysInOrder: of every two acts on a piece that the record accepts one after the other,
// the second is refused for the day before the first if both move it, with the entry named
// that it follows; what has nothing to do with each other is accepted. Nothing is ever learnt to
// have come back before it went.
func TestDaysInOrder(t *testing.T) {
	d := laterRecorder(t)
	path := d.State.Job.File
	all := slices.Concat(ways, still, []step{{"hung", Facts{Target: "sound", Grade: "80"}},
		{"unhung", Facts{Target: "sound"}}, {"sold", Facts{Target: "sound"}},
		{"graded", Facts{Target: "sound", Grade: "70"}}, {"quoted", Facts{Target: "sound", To: "north", Cost: "30.00"}}})
	on := func(day int) string { return fmt.Sprintf("2031-02-%02d", day) }
	moves := func(s step) bool { return slices.Contains(moving, s.name) && s.facts.Target == "sound" }
	refused, accepted := map[string]bool{}, map[string]bool{}
	try := func(s step, day int, before []byte) (*catalog.State, error) { // and leaves all as it was
		s.facts.On = on(day)
		a, _ := Find(s.name)
		if d == nil {
			d = recorderAt(t, path)
		}
		deed, err := a.Deed(d, s.facts)
		if err != nil {
			return nil, err
		}
		st, err := d.Record(deed)
		if err == nil {
			err = os.WriteFile(catalog.JournalOf(path), before, 0o644)
			d = nil // what was refused changed nothing: only now it is opened anew
		}
		return st, err
	}
	var walk func(left, day int, last *step)
	walk = func(left, day int, last *step) {
		before, _ := os.ReadFile(catalog.JournalOf(path))
		for _, s := range all {
			if _, err := try(s, day, before); err != nil {
				continue
			}
			if last != nil {
				pair := last.name + ", " + s.name
				st, err := try(s, day-3, before)
				var wrong *catalog.WrongDay
				both := last.facts.Target == s.facts.Target
				switch {
				case last.name == "hung" && s.name == "hung": // the second says how it looks
				case moves(*last) && moves(s):
					refused[pair] = true
					if !errors.As(err, &wrong) || !strings.Contains(err.Error(), "("+last.name+", piece \"sound\") of "+on(day-2)) ||
						!strings.Contains(err.Error(), "--on "+on(day-2)) {
						t.Errorf("%s on an earlier day: %v", pair, err)
					}
				case err == nil:
					accepted[pair] = true
				case !errors.As(err, &wrong):
					t.Errorf("%s on an earlier day: %v", pair, err)
				case !both && strings.Contains(err.Error(), "("+last.name+","):
					t.Errorf("%s have nothing to do with each other: %v", pair, err)
				}
				if st != nil {
					for _, x := range risk.Experiences(st) {
						if x.TookKnown && x.Took < 0 {
							t.Errorf("%s: learnt that it took %d days", pair, x.Took)
						}
					}
				}
			}
			if left > 1 {
				s.facts.On = on(day)
				must(t, recorderAt(t, path), s)
				d = nil
				walk(left-1, day+2, &s)
				d = nil
				if err := os.WriteFile(catalog.JournalOf(path), before, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	steps := 2
	if campaign.Long() {
		steps = 3
	}
	walk(steps, 10, nil)
	for _, pair := range []string{"sent, back", "sent, stripped", "sent, broke", "hung, unhung", "stripped, sent",
		"sent, refused"} {
		if !refused[pair] {
			t.Errorf("never tried: %s", pair)
		}
	}
	for _, pair := range []string{"sent, note", "sent, spent", "note, sent", "ban, sent", "lock, unlock", "sent, sent",
		"fitted, sent"} {
		if !accepted[pair] {
			t.Errorf("never accepted: %s", pair)
		}
	}
	t.Log(len(refused), len(accepted))
}

// TestDayBeyondReason: the clock stands on 2031-02-01, and the job has no start.
func TestDayBeyondReason(t *testing.T) {
	for _, c := range []struct {
		days []string // of notes; the last one is tried
		good bool
	}{
		{[]string{"2131-02-01"}, false},
		{[]string{"2031-02-02"}, true},
		{[]string{"2032-02-02"}, true}, // nothing is known yet
		{[]string{"2032-02-05"}, false},
		{[]string{"2031-02-01", "2032-02-02"}, true},
		{[]string{"2031-02-01", "2032-02-03"}, false},
		{[]string{"2032-01-20", "2033-01-20"}, true}, // the job is ahead of the clock
		{[]string{"2032-01-20", "2033-01-21"}, false},
		{[]string{"2021-02-10"}, true},
		{[]string{"1931-02-10"}, false},
		{[]string{"0031-02-10"}, false},
	} {
		d := laterRecorder(t)
		for i, day := range c.days {
			err := do(t, d, "note", Facts{Target: "x", On: day})
			if want := c.good || i < len(c.days)-1; (err == nil) != want {
				t.Errorf("%v: %s: %v", c.days, day, err)
			}
			if err != nil && (!strings.HasPrefix(err.Error(), `"`+day+`" is beyond reason`) ||
				!strings.Contains(err.Error(), "; give the day it happened, 20")) {
				t.Error(err)
			}
		}
	}
}

// TestDaysOfOldJournals: a day that can't be right in a journal that has it already is told,
// with entry, action and piece, and is neither today nor learnt from; all else of the entry
// counts.
func TestDaysOfOldJournals(t *testing.T) {
	for _, c := range []struct {
		name, day, instead string
		says               string
		asOf               string
		elapsed            int
		took               int
		known              bool
	}{
		{"as it was", "", "", "", "2031-03-13", 40, 30, true},
		{"a note of 2131", "2031-03-13", "2131-03-13", `entry 4 (note): its day "2131-03-13" is beyond reason`, "2031-03-03",
			30, 30, true},
		{"back before sent", "2031-03-03", "2030-10-19", `entry 3 (back, piece "sound"): its day "2030-10-19" is before ` +
			`entry 2 (sent, piece "sound") of 2031-02-01`, "2031-03-13", 40, 0, false},
		{"sent in 2131", "2031-02-01", "2131-02-01", `entry 2 (sent, piece "sound"): its day "2131-02-01" is beyond reason`,
			"2031-03-13", 40, 0, false},
		{"begun in 1931", "2031-02-01", "1931-02-01", `entry 1 (note): its day "1931-02-01" is beyond reason`, "2031-03-13",
			10, 0, false},
	} {
		d := laterRecorder(t)
		path := d.State.Job.File
		must(t, d, step{"note", Facts{Target: "begun", On: "2031-02-01"}},
			step{"sent", Facts{Target: "sound", To: "north", On: "2031-02-01"}},
			step{"back", Facts{Target: "sound", On: "2031-03-03", Cost: "44.00"}},
			step{"note", Facts{Target: "rang", On: "2031-03-13"}})
		text, _ := os.ReadFile(catalog.JournalOf(path))
		lines := strings.SplitAfter(string(text), "\n")
		for i := range lines {
			if c.day != "" && (c.name != "sent in 2131" || i == 1) {
				lines[i] = strings.ReplaceAll(lines[i], `"on":"`+c.day, `"on":"`+c.instead)
			}
		}
		os.WriteFile(catalog.JournalOf(path), []byte(strings.Join(lines, "")), 0o644)
		st := recorderAt(t, path).State
		told := ""
		for _, w := range st.Warnings {
			told += w.Message + "\n"
		}
		if c.says == "" != (told == "") || !strings.Contains(told, c.says) {
			t.Errorf("%s: told %q", c.name, told)
		}
		if got := st.Job.AsOf.Format("2006-01-02"); got != c.asOf || st.Job.Elapsed != c.elapsed {
			t.Errorf("%s: it is %s, day %d; want %s, day %d", c.name, got, st.Job.Elapsed, c.asOf, c.elapsed)
		}
		x := risk.Experiences(st)
		if len(x) != 1 || x[0].TookKnown != c.known || x[0].Took != c.took || x[0].Paid != 44_00 {
			t.Errorf("%s: learnt %+v", c.name, x)
		}
	}
}

// TestDateClashNamesTheEntry: where more days are gone than there were, what is asked of the
// date says by which entries.
func TestDateClashNamesTheEntry(t *testing.T) {
	d := laterRecorder(t)
	path := d.State.Job.File
	text, _ := os.ReadFile(path)
	os.WriteFile(path, []byte(strings.Replace(string(text), "[job]", "[job]\nwithin_days = 30", 1)), 0o644)
	d = recorderAt(t, path)
	must(t, d, step{"sent", Facts{Target: "sound", To: "north", On: "2031-02-01"}},
		step{"note", Facts{Target: "rang", On: "2031-12-01"}})
	want := "the date, within 30 days, of which 303 are gone: from 2031-02-01, the day of entry 1 (sent) to 2031-12-01, " +
		"the day of entry 2 (note)"
	if all := ask.Requirements(d.State); !slices.ContainsFunc(all,
		func(r ask.Requirement) bool { return r.Words == want }) {
		t.Errorf("%+v", all[0])
	}
}
