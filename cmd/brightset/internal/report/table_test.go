package report

import (
	"strings"
	"testing"
)

func TestWidth(t *testing.T) {
	cases := map[string]int{"": 0, "abc": 3, "é": 1, "e\u0301": 1, "蝶番": 4, "a\u200bb": 2}
	for text, want := range cases {
		if got := Width(text); got != want {
			t.Errorf("Width(%q) = %d, want %d", text, got, want)
		}
	}
}

func TestWrap(t *testing.T) {
	cases := []struct {
		text  string
		width int
		want  string
	}{
		{"", 5, ""},
		{"one two three", 7, "one two|three"},
		{"one two three", 8, "one two|three"},
		{"abcdefghij", 4, "abcd|efgh|ij"},
		{"ab abcdefghij c", 4, "ab|abcd|efgh|ij c"},
		{"  one two three", 9, "  one two|  three"},
		{"a\tb\x1b[31mc", 20, "a b [31mc"},
		{"蝶番蝶番", 4, "蝶番|蝶番"},
		{"蝶番", 1, "蝶|番"},
	}
	for _, c := range cases {
		if got := strings.Join(Wrap(c.text, c.width), "|"); got != c.want {
			t.Errorf("Wrap(%q, %d) = %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func TestTable(t *testing.T) {
	table := NewTable("slot", "what", ">cost")
	if table.String() != "" {
		t.Error("a table without rows is not empty")
	}
	table.Row("a", "first\nsecond", "1.00")
	table.Span(4, "across")
	table.Rule()
	table.Row("sum", "", "12345.00")
	want := `slot  what        cost
----------------------
a     first       1.00
      second
    across
----------------------
sum           12345.00
`
	if got := table.String(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// However much the words need, the table stays within its width and no digit of
// a right column is lost.
func TestTableGivesWay(t *testing.T) {
	table := NewTable("slot", "what", ">cost")
	table.Row(strings.Repeat("long ", 20), strings.Repeat("x", 100), "1234567890.00")
	for _, line := range strings.Split(table.String(), "\n") {
		if Width(line) > Columns {
			t.Errorf("%d columns: %s", Width(line), line)
		}
	}
	if !strings.Contains(table.String(), "1234567890.00") {
		t.Error("the sum is not there as a whole")
	}
}
