package catalog

import (
	"strings"
	"testing"
)

const includingJob = `include = ["more.toml"]
[job]
title = "Two files"
[slot.bar]
area = "1 dm2"
[piece.first]
fits = ["bar"]
kind = "original"
metal = "brass"
`

const includedPieces = `[piece.extra]
fits = ["bar"]
kind = "original"
metal = "brass"
grade = 70
[piece.first.finding.a]
defect = "haze"
`

// What a job includes may bring pieces, and add findings and quotes to pieces
// that stand elsewhere; a second piece of one name is a mistake.
func TestIncludedPieces(t *testing.T) {
	inFolder(t, map[string]string{"job.toml": includingJob, "more.toml": includedPieces})
	s, err := Load("job.toml", Options{})
	if err != nil {
		t.Fatal(err)
	}
	at, ok := s.FindPiece("extra")
	if !ok || s.Pieces[at].From.File != "more.toml" || s.Pieces[at].From.Source != JobFile {
		t.Errorf("extra: %v %+v", ok, s.Pieces[at].From)
	}
	if found := s.Pieces[0].Findings; len(found) != 1 || found[0].ID != "a" {
		t.Errorf("findings %+v", found)
	}
	for added, want := range map[string]string{
		"[piece.first]\nkind = \"original\"\n":                             "is written twice, first in job.toml:6",
		"[piece.extra.quote.q]\ncost = \"3.00\"\n":                         "has no plater",
		"[vendor.x]\nfreight = \"3.00\"\n":                                 "has no place in this file",
		"[piece.first.finding.a]\ndefect = \"haze\"\n[piece.first]\nx=1\n": "written twice",
	} {
		inFolder(t, map[string]string{"job.toml": includingJob, "more.toml": strings.TrimSuffix(includedPieces, "[piece.first.finding.a]\ndefect = \"haze\"\n") + added})
		if _, err := Load("job.toml", Options{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", added, err)
		}
	}
}
