package sheet

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"

	"brightset/catalog"
)

// bare makes a folder with the demo's shop and a job of its slots alone.
func bare(t testing.TB, include ...string) string {
	t.Helper()
	dir := t.TempDir()
	job, err := os.ReadFile("../../testdata/demo/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	shop, err := os.ReadFile("../../testdata/demo/shop.toml")
	if err != nil {
		t.Fatal(err)
	}
	kept := "include = ["
	for i, name := range include {
		if i > 0 {
			kept += ", "
		}
		kept += fmt.Sprintf("%q", name)
	}
	kept += "]\n"
	for _, table := range regexp.MustCompile(`(?m)^\[`).Split(string(job), -1)[1:] {
		if strings.HasPrefix(table, "job]") || strings.HasPrefix(table, "slot.") {
			kept += "[" + table
		}
	}
	for name, text := range map[string]string{"job.toml": kept, "shop.toml": string(shop)} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func load(t testing.TB, path string) *catalog.State {
	t.Helper()
	st, err := catalog.Load(path, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

const goodRow = "id,fits,kind,metal,quantity,chance,note\np1,grille,original,pot metal,1,,fine\n"

func importText(t testing.TB, text string, w What) (string, *Imported, error) {
	return importInto(t, "", text, w)
}

// importInto imports a table into a job of the demo's slots and what is added
// to it, and sees that there is a new file only if nothing was wrong.
func importInto(t testing.TB, added, text string, w What) (string, *Imported, error) {
	t.Helper()
	dir := bare(t)
	csv, job := filepath.Join(dir, "in.csv"), filepath.Join(dir, "job.toml")
	base, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	for path, text := range map[string]string{csv: text, job: string(base) + added} {
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "in.toml")
	done, err := Import(job, w, csv, out, Reading{}, false)
	left, _ := filepath.Glob(filepath.Join(dir, ".brightset-*"))
	if len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	if _, statErr := os.Stat(out); (statErr == nil) != (err == nil) {
		t.Errorf("file there: %v, error: %v", statErr == nil, err)
	}
	return out, done, err
}

func TestImportAccepts(t *testing.T) {
	wide := func(order int) string {
		b := []byte{0xff, 0xfe}
		if order == 1 {
			b = []byte{0xfe, 0xff}
		}
		for _, u := range utf16.Encode([]rune(goodRow)) {
			lo, hi := byte(u), byte(u>>8)
			if order == 1 {
				lo, hi = hi, lo
			}
			b = append(b, lo, hi)
		}
		return string(b)
	}
	for name, text := range map[string]string{
		"plain":         goodRow,
		"mark":          "\xef\xbb\xbf" + goodRow,
		"utf-16 little": wide(0),
		"utf-16 big":    wide(1),
		"cr only":       strings.ReplaceAll(goodRow, "\n", "\r"),
		"cr-lf":         strings.ReplaceAll(goodRow, "\n", "\r\n"),
		"tabs":          strings.ReplaceAll(goodRow, ",", "\t"),
		"semicolons":    strings.ReplaceAll(goodRow, ",", ";"),
		"decimal comma": "id;fits;kind;metal;chance;grade\np1;grille;original;pot metal;0,5;77,5\n",
		"inch marks":    "id,fits,kind,metal,note\np1,grille,original,pot metal,12\" long\n",
		"empty rows":    "id,fits,kind,metal\n\n,,,\np1,grille,original,pot metal\n\n",
		"empty columns": "id,fits,kind,metal,,\np1,grille,original,pot metal,,\n",
		"head in caps":  "ID, Fits ,KIND,Metal\np1,grille,original,pot metal\n",
		"sep line":      "sep=;\r\nid;fits;kind;metal\r\np1;grille;original;pot metal\r\n",
		"one decimal":   "id,fits,kind,metal,owner,price\np1,grille,original,pot metal,shop,240.5\n",
		"spaced quotes": "id, \"fits\" ,kind,metal\np1, \"grille\" ,original,pot metal\n",
		"guarded":       "id,fits,kind,metal,chance\n'007,grille,original,pot metal,'0.5\n",
		"two slots":     "id,fits,kind,metal\np1,grille | crest,original,pot metal\n",
	} {
		t.Run(name, func(t *testing.T) {
			_, done, err := importText(t, text, Pieces)
			if err != nil || done.Rows != 1 {
				t.Fatalf("%+v %v %+v", done, err, err)
			}
		})
	}
}
