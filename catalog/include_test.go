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
		"[piece.first]\nkind = \"original\"\n":     "is written twice, first in job.toml:6",
		"[piece.extra.quote.q]\ncost = \"3.00\"\n": "has no plater",
		"[piece.frist.finding.b]\ndefect = \"haze\"\n": "no piece of the job is called \"frist\"\n    " +
			"[piece.frist.finding.b]\n           ^^^^^\n    did you mean \"first\"?",
		"[vendor.x]\nfreight = \"3.00\"\n":                                 "has no place in this file",
		"[piece.first.finding.a]\ndefect = \"haze\"\n[piece.first]\nx=1\n": "written twice",
	} {
		inFolder(t, map[string]string{"job.toml": includingJob, "more.toml": strings.TrimSuffix(includedPieces,
			"[piece.first.finding.a]\ndefect = \"haze\"\n") + added})
		if _, err := Load("job.toml", Options{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", added, err)
		}
	}
}

// The order of the files doesn't matter: what is added may come before the piece.
func TestAddedBeforePiece(t *testing.T) {
	job := strings.Replace(includingJob, `["more.toml"]`, `["found.toml", "more.toml"]`, 1)
	inFolder(t, map[string]string{"job.toml": job, "more.toml": includedPieces,
		"found.toml": "[piece.extra.finding.early]\ndefect = \"pits\"\n[piece.drawer.finding.x]\ndefect = \"pits\"\n"})
	if _, err := Load("job.toml", Options{}); err == nil ||
		!strings.Contains(err.Error(), `no piece of the job is called "drawer"`) || strings.Contains(err.Error(), "extra") {
		t.Errorf("%v", err)
	}
	inFolder(t, map[string]string{"job.toml": strings.Replace(job, "title", "shop = \"shop.toml\"\ntitle", 1),
		"more.toml":  includedPieces,
		"found.toml": "[piece.drawer.finding.x]\ndefect = \"pits\"\n",
		"shop.toml":  "[piece.drawer]\nfits = [\"bar\"]\nkind = \"original\"\nmetal = \"brass\"\n"})
	if _, err := Load("job.toml", Options{}); err == nil ||
		!strings.Contains(err.Error(), `piece "drawer" is in the shop's file`) {
		t.Errorf("%v", err)
	}
}

// A list of prices that the shop includes serves all jobs: a part that this one doesn't have
// is no mistake there. In one that the job includes it is.
func TestIncludedPrices(t *testing.T) {
	files := map[string]string{
		"list.toml": "[plater.q.level.l.price]\nbar = \"10.00\"\ncleat = \"12.00\"\n",
		"shop.toml": "include = [\"list.toml\"]\n[plater.q]\n[plater.q.level.l]\ngrade = 90\n",
		"job.toml":  "[job]\ntitle = \"t\"\nshop = \"shop.toml\"\n[slot.bar]\n",
	}
	inFolder(t, files)
	s, err := Load("job.toml", Options{})
	if err != nil {
		t.Fatal(err)
	}
	if prices := s.Platers[0].Levels[0].Prices; len(prices) != 2 {
		t.Errorf("prices %+v", prices)
	}
	files["job.toml"] = "include = [\"list.toml\"]\n" + files["job.toml"]
	files["shop.toml"] = strings.TrimPrefix(files["shop.toml"], "include = [\"list.toml\"]\n")
	inFolder(t, files)
	_, err = Load("job.toml", Options{})
	if err == nil || !strings.Contains(err.Error(), `no part or piece is called "cleat"`) {
		t.Errorf("included by the job: %v", err)
	}
}
