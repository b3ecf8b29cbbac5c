package record

import (
	"os"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/risk"
	"brightset/testdata/campaign"
)

// ways are the acts that a piece may go through, with no order between them but that
// which the record asks for.
var ways = []step{
	{"sent", Facts{Target: "sound", To: "north"}},
	{"sent", Facts{Target: "sound", To: "north", StripFirst: true}},
	{"stripped", Facts{Target: "sound"}},
	{"found", Facts{Target: "sound", Defect: "pits", Severity: "light"}},
	{"priced", Facts{Target: "sound", Cost: "60.00"}},
	{"approved", Facts{Target: "sound"}},
	{"plated", Facts{Target: "sound"}},
	{"refused", Facts{Target: "sound"}},
	{"recalled", Facts{Target: "sound"}},
	{"back", Facts{Target: "sound"}},
	{"hung", Facts{Target: "sound"}},
	{"broke", Facts{Target: "sound"}},
	{"lost", Facts{Target: "sound"}},
	{"unban", Facts{Target: "sound"}}, // so that he who refused it may have it again
}

// TestEveryOrderTeaches: in whatever order acts are recorded that the record accepts, every
// piece that came back, broke, was lost or was refused at a plater's is learnt from once,
// and nothing else is.
func TestEveryOrderTeaches(t *testing.T) {
	path := laterRecorder(t).State.Job.File
	counted := map[string]int{}
	var said []string
	var walk func(left int, at bool, want []string)
	walk = func(left int, at bool, want []string) {
		var got []string
		d := recorderAt(t, path)
		for _, x := range risk.Experiences(d.State) {
			switch {
			case x.Broke:
				got = append(got, "broke")
			case x.Refused:
				got = append(got, "refused")
			default:
				got = append(got, "back")
			}
			agreed := catalog.Cents(40_00) // our estimate, until he names a price
			if x.Named {
				agreed = 60_00
			}
			if x.Plater != "north" || x.Agreed != agreed || x.Named && !slices.Contains(said, "priced") || x.Piece != "sound" {
				t.Errorf("%s: %+v", strings.Join(said, ", "), x)
			}
		}
		if !slices.Equal(got, want) {
			t.Fatalf("%s: learnt %v, want %v", strings.Join(said, ", "), got, want)
		}
		if left == 0 {
			counted[strings.Join(want, ",")]++
			return
		}
		before, _ := os.ReadFile(catalog.JournalOf(path))
		for _, w := range ways {
			if d == nil {
				d = recorderAt(t, path)
			}
			if do(t, d, w.name, w.facts) != nil {
				continue
			}
			d = nil // what is refused changes nothing: only now it is opened anew
			said = append(said, w.name)
			next, there := want, at
			switch w.name {
			case "sent":
				there = true
			case "recalled":
				there = false
			case "refused", "back":
				next, there = append(slices.Clone(want), w.name), false
			case "broke", "lost":
				if at {
					next, there = append(slices.Clone(want), "broke"), false
				}
			}
			walk(left-1, there, next)
			said = said[:len(said)-1]
			if err := os.WriteFile(catalog.JournalOf(path), before, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	walk(3+campaign.Cases(0, 3), false, nil)
	for _, end := range []string{"back", "broke", "refused"} {
		if counted[end] < 5 {
			t.Errorf("%d orders end in %q", counted[end], end)
		}
	}
	t.Log(counted)
}

// TestSentAgainOnTheSameTerms: what comes back and goes out again on the same terms is
// learnt from twice, though an entry holds only what became another.
func TestSentAgainOnTheSameTerms(t *testing.T) {
	d := laterRecorder(t)
	sent := step{"sent", Facts{Target: "sound", To: "north"}}
	must(t, d, sent, step{"back", Facts{Target: "sound"}}, sent, step{"broke", Facts{Target: "sound"}})
	if all := risk.Experiences(d.State); len(all) != 2 || all[0].Broke || !all[1].Broke || all[1].Plater != "north" {
		t.Errorf("%+v", all)
	}
}

// TestSomeOfABagBreak: of a bag of six at a plater's two break and four come back: six
// pieces, two of them broken.
func TestSomeOfABagBreak(t *testing.T) {
	dir := swift(t)
	job := strings.Replace(laterJob, `[piece.sound]`, "[piece.sound]\nquantity = 6", 1)
	for name, text := range map[string]string{"job.toml": job, "shop.toml": laterShop} {
		if err := os.WriteFile(dir+"/"+name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	d := recorderAt(t, dir+"/job.toml")
	must(t, d, step{"sent", Facts{Target: "sound", To: "north", Count: "6", Cost: "40.00", StripFirst: true}},
		step{"stripped", Facts{Target: "sound"}},
		step{"broke", Facts{Target: "sound", Count: "2"}}, step{"back", Facts{Target: "sound"}})
	learnt := risk.Learn(risk.Experiences(d.State), 20)
	if learnt.Count != 6 || learnt.Metals[0].N != 6 || learnt.Metals[0].Broke != 2 || learnt.Platers[0].N != 6 ||
		learnt.Platers[0].PaidN != 1 {
		t.Errorf("%+v", learnt)
	}
}
