package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestAreaNotMissed: where a plater asks by the piece for what fits a slot, its area is not
// missed; where he doesn't, it is.
func TestAreaNotMissed(t *testing.T) {
	const job = "[job]\ntitle = \"x\"\n[slot.cleat]\n[slot.rail]\n" +
		"[piece.a]\nfits = [\"cleat\"]\nkind = \"original\"\nmetal = \"brass\"\ngrade = 60\n" +
		"[piece.b]\nfits = [\"rail\"]\nkind = \"original\"\nmetal = \"brass\"\ngrade = 60\n" +
		"[plater.north.level.show]\nprice = { cleat = \"40.00\" }\ngrade = 90\n"
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte(job), 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, errs := brightset("check", path)
	if code != 0 || !strings.Contains(out, "the area, without which no plating can be reckoned, of rail\n") {
		t.Errorf("%d %s\n%s", code, out, errs)
	}
}
