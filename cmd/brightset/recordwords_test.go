package main

import (
	"strings"
	"testing"
)

// TestActionMeant: a word that is no action is answered with the action that was meant: the one
// it is most like, or the one that stands behind what it happened to.
func TestActionMeant(t *testing.T) {
	for typed, want := range map[string]string{
		"snet crest-2":             `no action is called "snet"; did you mean "sent"?`,
		"lsit":                     `no action is called "lsit"; did you mean "list"?`,
		"crest-2 sent":             `no action is called "crest-2"; what happened comes first: brightset record sent crest-2`,
		"crest-2,arm-1 back":       "brightset record back crest-2,arm-1",
		"teh crest-2":              `no action is called "teh"; type: brightset help record`,
		"crest-2 testdata/nowhere": `no action is called "crest-2"; type: brightset help record`,
	} {
		code, out, errs := brightset(append([]string{"record"}, strings.Fields(typed)...)...)
		if code != exitUsage || out != "" || !strings.Contains(errs, want) {
			t.Errorf("record %s: exit %d, %s%s, want %s", typed, code, out, errs, want)
		}
	}
}
