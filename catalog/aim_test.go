package catalog

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// aimingJob is a job's file with a target in some form, whose slots name targets of their
// own, give single keys, both, or nothing. Every key stands on a line of its own that is
// there whatever the form, so that origins can be compared too.
func aimingJob(r *rand.Rand, form string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "[job]\ntitle = \"t\"\n%s\n", form)
	for s := range 5 {
		fmt.Fprintf(&b, "[slot.s%d]\n", s)
		for _, line := range []string{`target = "driver"`, `target = "show"`, "floor = 61", "fresh = true", "fresh = false",
			"redone = true", "lasting = false", "fallback_floor = 44"} {
			key, _, _ := strings.Cut(line, " ")
			if text := b.String(); r.IntN(4) == 0 && !strings.Contains(text[strings.LastIndex(text, "[slot"):], "\n"+key) {
				b.WriteString(line + "\n")
			}
		}
	}
	return b.String()
}

// TestAimedAtIsTheFile: a state aimed at a named target asks what the file asks that names
// it, slot by slot, origins included.
func TestAimedAtIsTheFile(t *testing.T) {
	forms := []string{"", `target = "nice"`, `target = "show"`, "target = { floor = 70, mean = 80, lasting = true }"}
	for seed := range uint64(25) {
		file := func(form string) *State {
			return mustLoad(t, aimingJob(rand.New(rand.NewPCG(seed, 3)), form), "", Options{})
		}
		st := file(forms[seed%uint64(len(forms))])
		for _, target := range st.Tables.Targets {
			got, want := st.AimedAt(target), file(fmt.Sprintf("target = %q", target.Name))
			if got.Job.Target != want.Job.Target {
				t.Errorf("seed %d, %s: the set is asked %+v, in the file %+v", seed, target.Name, got.Job.Target, want.Job.Target)
			}
			for s := range got.Slots {
				if got.Slots[s].Target != want.Slots[s].Target {
					t.Errorf("seed %d, %s, %s: %+v, in the file %+v", seed, target.Name, got.Slots[s].ID, got.Slots[s].Target,
						want.Slots[s].Target)
				}
			}
		}
		if again := st.AimedAt(st.Job.Target); again.Job.Target != st.Job.Target ||
			again.Slots[0].Target != st.Slots[0].Target || again.Slots[4].Target != st.Slots[4].Target {
			t.Errorf("seed %d: aimed at what it asks anyway, it asks something else", seed)
		}
	}
}

// What need not be freshly finished need not be refinished either, unless that is said: a
// file that was written before the highest target asked for that means what it meant.
func TestNotFreshIsNotRedone(t *testing.T) {
	for _, tt := range []struct {
		job, slot string
		want      bool
	}{
		{"", "", true},
		{"", "fresh = true", true},
		{"", "fresh = false", false},
		{"", "fresh = false\nredone = true", true},
		{"", "redone = false", false},
		{"[target]\nfresh = false", "", false},
		{"[target]\nfresh = false", "redone = true", true},
		{"[target.concours]\nfresh = false", "", false},
	} {
		st := mustLoad(t, fmt.Sprintf("[job]\ntitle = \"t\"\ntarget = \"concours\"\n[slot.bar]\n%s\n%s\n", tt.slot, tt.job),
			"", Options{})
		if got := st.Slots[0].Target.Redone.Or(false); got != tt.want {
			t.Errorf("%+v: redone %v", tt, got)
		}
	}
}
