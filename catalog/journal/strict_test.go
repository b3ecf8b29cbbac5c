package journal

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
)

// TestStrict: a line that says what is not taken from it is refused, with the reason.
func TestStrict(t *testing.T) {
	e := entry(1)
	e.Version, e.Seq = 1, 1
	text, _ := e.line()
	good := string(text)
	swap := func(from, to string) string {
		if !strings.Contains(good, from) {
			t.Fatalf("no %s in %s", from, good)
		}
		return strings.Replace(good, from, to, 1)
	}
	for _, c := range []struct{ name, text, says string }{
		{"case", swap(`"seq"`, `"Seq"`), `no key "Seq"`},
		{"case of a change", swap(`"target"`, `"TARGET"`), `no key "TARGET" in a change`},
		{"twice", swap(`"seq":1`, `"seq":7,"seq":1`), `"seq" stands twice`},
		{"twice in a change", swap(`"old":`, `"old":{},"old":`), `"old" stands twice in a change`},
		{"twice in a value", swap(`"new":{`, `"new":{"grade":5,`), `"grade" stands twice`},
		{"unknown", swap(`"seq"`, `"sum":1,"seq"`), `no key "sum"`},
		{"missing", swap(`,"base":"0123456789abcdef"`, ""), `no "base"`},
		{"missing in a change", swap(`"old":{"grade":null},`, ""), `no "old" in a change`},
		{"no changes", regexp.MustCompile(`"changes":\[.*\]`).ReplaceAllString(good, `"changes":null`), "a list"},
		{"an empty target", swap(`["piece","rl-1"]`, `[]`), "without a target"},
		{"not UTF-8", swap("rl-1", "rl\xff1"), "not UTF-8"},
	} {
		l := Read([]byte(c.text))
		if len(l.Problems) != 1 || !strings.Contains(l.Problems[0].Message, c.says) {
			t.Errorf("%s: %+v", c.name, l.Problems)
		}
		for _, e := range l.Entries {
			if len(e.Changes) > 0 {
				t.Errorf("%s: its changes are laid all the same", c.name)
			}
		}
	}
	if l := Read([]byte(good)); len(l.Problems) > 0 {
		t.Error(l.Problems)
	}
}

// TestKeysOfAnyCase turns letters of random keys: none of it is read as the key it was.
func TestKeysOfAnyCase(t *testing.T) {
	e := entry(1)
	e.Version, e.Seq, e.On, e.Reason, e.Job = 1, 1, "2031-01-31", "why", "job.toml"
	good, _ := e.line()
	key := regexp.MustCompile(`"(version|seq|id|time|on|action|changes|reason|job|base|target|old|new)":`)
	all := key.FindAllIndex(good, -1)
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 3))
		line := bytes.Clone(good)
		at := all[r.IntN(len(all))]
		line[at[0]+1+r.IntN(at[1]-at[0]-3)] ^= 0x20
		l := Read(line)
		if bytes.Equal(line, good) || len(l.Problems) == 0 ||
			!strings.Contains(l.Problems[0].Message, "an entry has no key") {
			t.Fatalf("seed %d: %s\n%v", seed, line, l.Problems)
		}
	}
}

// TestDeep: brackets piled up are refused or read, and never too much for the stack.
func TestDeep(t *testing.T) {
	for _, n := range []int{10, 9_000, 20_000, 1_000_000} {
		line := fmt.Sprintf(`{"version":1,"seq":1,"id":"a","time":"2031-01-01T00:00:00Z","action":"x","base":"",`+
			`"changes":[{"target":["job"],"old":{},"new":{"title":%s%s}}]}`,
			strings.Repeat("[", n), strings.Repeat("]", n))
		if l := Read([]byte(line + "\n")); (len(l.Problems) > 0) != (n > 9_900) {
			t.Errorf("%d deep: %v", n, l.Problems)
		}
	}
}
