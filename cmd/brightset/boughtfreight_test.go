package main

import (
	"os"
	"strings"
	"testing"
)

// TestBoughtWithoutFreight: the plan reckons with a vendor's freight, and what was bought without any lets it fall
// out of the plan: that is told, and not where it was booked or he charges none.
func TestBoughtWithoutFreight(t *testing.T) {
	const mind = "the freight of Tin Shed Spares, 24.00, is not in it; if he charges it: brightset record undo, and " +
		"again with --freight 24.00"
	for _, c := range []struct {
		args []string
		told bool
	}{
		{[]string{"letters-nos"}, true},
		{[]string{"letters-nos", "--freight", "24.00"}, false},
		{[]string{"crest-friend"}, false},
	} {
		dir := t.TempDir()
		if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
			t.Fatal(err)
		}
		out := says(t, append(append([]string{"record", "bought"}, c.args...), dir)...)
		if strings.Contains(out, mind) != c.told {
			t.Errorf("%v: %s", c.args, out)
		}
	}
}
