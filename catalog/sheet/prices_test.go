package sheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestPricesByThePiece: a plater's list comes in, counts beside his rate, and goes out again
// as it came.
func TestPricesByThePiece(t *testing.T) {
	dir := bare(t, "in.toml")
	job, csv, out := filepath.Join(dir, "job.toml"), filepath.Join(dir, "in.csv"), filepath.Join(dir, "in.toml")
	list := "plater,level,part,metal,price\r\npell,show,grille,,85.00\r\n" +
		"pell,show,crest,steel,32.50\r\npell,show,crest,brass,30.00\r\n"
	for path, text := range map[string]string{csv: list, out: mark + "nothing"} {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := Import(job, Prices, csv, out, Reading{}, true); err != nil {
		t.Fatal(err)
	}
	st, err := catalog.Load(job, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	got, err := Export(st, Prices, Writing{})
	if err != nil || got != list {
		t.Errorf("got %q (%v)\nwant %q", got, err, list)
	}
}

// TestPricesRefused names the cell, and says what to write.
func TestPricesRefused(t *testing.T) {
	head := "plater,level,part,metal,price\n"
	for text, want := range map[string]string{
		"pell,show,grile,,85.00":                          `no part or piece is called "grile"`,
		"pell,show,grille,tin,85.00":                      `unknown metal "tin"`,
		"pell,shiny,grille,,85.00":                        `unknown level "shiny"`,
		"pel,show,grille,,85.00":                          `unknown plater "pel"`,
		"pell,show,grille,,cheap":                         "price",
		"pell,show,,,85.00":                               "this is empty; write the part of the slots",
		"pell,show,grille,,85.00\npell,show,grille,,9.00": "is in row 2 already",
	} {
		_, _, err := importInto(t, "", head+text, Prices)
		got := problemsOf(err)
		if len(got) != 1 || got[0].Row < 2 || got[0].Column == "" || !strings.Contains(got[0].String(), want) {
			t.Errorf("%q: %v %v", text, err, got)
		}
	}
}
