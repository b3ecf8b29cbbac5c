package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const noPriceJob = `
[job]
title = "Rails"
start = 2031-03-01
target = "show"
rescue = "400.00"
[slot.rail]
area = "3 dm2"
[piece.rail-1]
fits = ["rail"]
kind = "original"
metal = "brass"
[piece.rail-1.finding.thin]
defect = "nickel showing"
severity = "moderate"
[plater.kit]
days = 30
`

// TestPlaterWithoutPrices: where the only plater has named no price, that is said first, and
// what is said to type helps.
func TestPlaterWithoutPrices(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "job.toml"), []byte(noPriceJob), 0o644); err != nil {
		t.Fatal(err)
	}
	_, out, _ := brightset("plan", dir)
	if text := strings.Join(strings.Fields(out), " "); !strings.Contains(text, "what a plater asks is known of none") {
		t.Errorf("not said: %s", text)
	}
	says(t, "record", "plater", "kit", dir, "--level", "show", "--metal", "brass", "--rate", "33.00", "--grade", "91")
	if out := says(t, "plan", dir); !strings.Contains(out, "The one slot filled") {
		t.Errorf("he has named it now, and yet: %s", out)
	}
}
