package catalog

import (
	"fmt"
	"strings"
	"testing"
)

func TestMistakePrinted(t *testing.T) {
	long := strings.Repeat("a", 200) + "here" + strings.Repeat("b", 200)
	for _, c := range []struct {
		name string
		m    Mistake
		want string
	}{
		{"plain", Mistake{"job.toml", 12, 9, 3, "money is written in quotes", `write price = "120.00"`, "price = 120"},
			"job.toml:12:9: money is written in quotes\n    price = 120\n            ^^^\n    write price = \"120.00\""},
		{"the file as a whole", Mistake{File: "job.toml", Message: "no such file", Hint: "check the name"},
			"job.toml: no such file\n    check the name"},
		{"tabs and control characters", Mistake{"f", 1, 3, 1, "m", "", "\t\x1bx = 1"}, "f:1:3: m\n      x = 1\n      ^"},
		{"letters of several bytes", Mistake{"f", 1, 5, 2, "m", "", "äöü xy"}, "f:1:5: m\n    äöü xy\n        ^^"},
		{"wider than the line", Mistake{"f", 1, 3, 99, "m", "", "abcd"}, "f:1:3: m\n    abcd\n      ^^"},
		{"past the end", Mistake{"f", 1, 9, 1, "m", "", "abcd"}, "f:1:9: m\n    abcd\n        ^"},
		{"long line", Mistake{"f", 1, 201, 4, "m", "", long},
			"f:1:201: m\n    ..." + strings.Repeat("a", 60) + "here" + strings.Repeat("b", 36) + "...\n    " +
				strings.Repeat(" ", 63) + "^^^^"},
	} {
		if got := c.m.String(); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

func TestMistakesPrintedInPart(t *testing.T) {
	m := &Mistakes{}
	for i := range 203 {
		m.List = append(m.List, Mistake{File: "f", Line: i + 1, Column: 1, Width: 1, Message: "m"})
	}
	text := m.Error()
	if n := strings.Count(text, ": m"); n != 200 {
		t.Errorf("%d mistakes printed, want 200", n)
	}
	if !strings.HasSuffix(text, "f:200:1: m\n\nand 3 more") {
		t.Errorf("the end is %q", text[len(text)-40:])
	}
}

func TestClosest(t *testing.T) {
	words := []string{"blisters", "pits", "dent", "breakage_factor", "pot metal", "steel"}
	for given, want := range map[string]string{
		"blister": "blisters", "BLISTERS": "blisters", "pit": "pits", "dnet": "dent", "factor": "breakage_factor",
		"pot-metal": "pot metal", "steal": "steel", "zzz": "", "": "", "x": "", "pitch": "pits",
	} {
		if got := Closest(given, words); got != want {
			t.Errorf("Closest(%q) = %q, want %q", given, got, want)
		}
	}
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "abc", 3}, {"abc", "abc", 0}, {"abc", "acb", 1}, {"kitten", "sitting", 3}, {"ä", "a", 1}} {
		if got := distance(c.a, c.b); got != c.want {
			t.Errorf("distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
		if distance(c.a, c.b) != distance(c.b, c.a) {
			t.Errorf("distance of %q and %q is not the same both ways", c.a, c.b)
		}
	}
}

func TestMeant(t *testing.T) {
	many := make([]string, 20)
	for i := range many {
		many[i] = fmt.Sprint("w", i)
	}
	if got := meant("zzzz", many, ""); !strings.HasPrefix(got, `write one of "w0", "w1"`) ||
		!strings.HasSuffix(got, `"w11", ...`) {
		t.Errorf("got %q", got)
	}
	if got := meant("zzzz", many, "do this"); got != "do this" {
		t.Errorf("got %q", got)
	}
}
