package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// twoBagsJob has two bags that are too small each, and a seller's box.
const twoBagsJob = `
[job]
title = "Wheelhouse"
start = 2031-03-01
target = "nice"
rescue = "60.00"
[slot.screws]
name = "coaming screws"
quantity = 36
[piece.bag-a]
name = "screws off the coaming"
fits = ["screws"]
kind = "original"
metal = "brass"
quantity = 29
grade = 90
[piece.bag-b]
name = "screws out of the tin"
fits = ["screws"]
kind = "original"
metal = "brass"
quantity = 9
grade = 92
[piece.boxed]
fits = ["screws"]
kind = "reproduction"
metal = "brass"
owner = "chandler"
price = "24.00"
box = 50
grade = 90
tried = true
[vendor.chandler]
freight = "6.00"
`

// TestTwoBags: where a box is to be bought, and two bags would do, the plan says so; put
// together they fill the slot, and there is nothing left to say.
func TestTwoBags(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "job.toml"), []byte(twoBagsJob), 0o644); err != nil {
		t.Fatal(err)
	}
	const say = "29 of screws off the coaming (bag-a) and 7 of screws out of the tin (bag-b) would fill coaming screws"
	if out := says(t, "plan", "--full", dir); !strings.Contains(out, say) || !strings.Contains(out, "total 30.00 30.00") {
		t.Errorf("a box for 30.00 is to be bought, and the bags are not told of: %s", out)
	}
	if out := says(t, "plan", dir); !strings.Contains(out, "two bags here would fill coaming screws") {
		t.Errorf("nothing said of the bags at first sight: %s", out)
	}
	says(t, "record", "joined", "bag-a", dir, "--piece", "bag-b", "--count", "7")
	const total = "total 0.00 0.00"
	if out := says(t, "plan", "--full", dir); strings.Contains(out, "would fill") || !strings.Contains(out, total) {
		t.Errorf("the bags are put together, and yet: %s", out)
	}
}
