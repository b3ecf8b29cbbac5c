package sheet

import (
	"errors"
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

// TestRoundTrip: what was exported, imported into an empty job and exported
// again is the same to the byte, in every dress.
func TestRoundTrip(t *testing.T) {
	demo := load(t, "../../testdata/demo/job.toml")
	// Names that spreadsheets and TOML stumble over.
	for i, id := range []string{"1-2", "007", "3E5", "Feb-1", "=2+3", "-x", "@a", "a\"b", "ö ü", "'quoted", "true"} {
		demo.Pieces[i].ID = id
		demo.Pieces[i].Note = "50\" wide, =SUM(A1)\nsecond line; and \\more"
	}
	for _, how := range []Writing{{}, {Mark: true}, {Semicolon: true}, {Semicolon: true, DecimalComma: true}} {
		dir := bare(t, "pieces.toml", "findings.toml", "quotes.toml")
		job := filepath.Join(dir, "job.toml")
		first := map[What]string{}
		for _, w := range []What{Pieces, Findings, Quotes} {
			for _, later := range []What{Findings, Quotes} { // not there yet
				if path := filepath.Join(dir, string(later)+".toml"); later != w {
					if _, err := os.Stat(path); err != nil {
						os.WriteFile(path, nil, 0o644)
					}
				}
			}
			text, err := Export(demo, w, how)
			if err != nil {
				t.Fatal(err)
			}
			first[w] = text
			csv := filepath.Join(dir, string(w)+".csv")
			if err := os.WriteFile(csv, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			done, err := Import(job, w, csv, filepath.Join(dir, string(w)+".toml"), Reading{}, true)
			if err != nil {
				t.Fatalf("%+v %s: %v %+v", how, w, err, err)
			}
			if !done.Included {
				t.Errorf("%s: the job includes it, and it was not noticed", w)
			}
		}
		again := load(t, job)
		for w, want := range first {
			if got, _ := Export(again, w, how); got != want {
				t.Errorf("%+v %s: got\n%s\nwant\n%s", how, w, got, want)
			}
		}
	}
}

const goodRow = "id,fits,kind,metal,quantity,chance,note\np1,grille,original,pot metal,1,,fine\n"

func importText(t testing.TB, text string, w What) (string, *Imported, error) {
	t.Helper()
	dir := bare(t)
	csv := filepath.Join(dir, "in.csv")
	if err := os.WriteFile(csv, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "in.toml")
	done, err := Import(filepath.Join(dir, "job.toml"), w, csv, out, Reading{}, false)
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

func TestImportRefuses(t *testing.T) {
	cases := []struct{ name, text, want string }{
		{"nothing", "", "the file is empty"},
		{"head only", "id,fits,kind,metal\n", "there are no rows"},
		{"no id", "fits,kind\ngrille,original\n", `row 1: there is no column "id"`},
		{"unknown column", "id,fits,kind,metl\np1,grille,original,brass\n", `row 1: unknown column "metl"; did you mean metal?`},
		{"column twice", "id,fits,kind,metal,metal\np1,grille,original,brass,brass\n", "row 1, metal: this column is there twice"},
		{"id twice", "id,fits,kind,metal\np1,grille,original,brass\np1,grille,original,brass\n", `row 3, id: "p1" is in row 2 already`},
		{"id empty", "id,fits,kind,metal\n,grille,original,brass\n", "row 2, id: this is empty"},
		{"ragged", "id,fits,kind,metal\np1,grille,original,brass,more\n", `row 2: "more" stands beyond the last column`},
		{"latin-1", "id,fits,kind,metal,note\np1,grille,original,brass,caf\xe9\n", "row 2, note: "},
		{"nul", "id,fits,kind,metal\np1,gri\x00lle,original,brass\n", "row 2: a NUL byte"},
		{"money", "id,fits,kind,metal,owner,price\np1,grille,original,brass,shop,\"1.240,00\"\n", "row 2, price: \"1.240,00\" has a comma"},
		{"percent", "id,fits,kind,metal,chance\np1,grille,original,brass,95%\n", "row 2, chance: this has to be a number; write 0.95"},
		{"unknown word", "id,fits,kind,metal\np1,grille,orignal,brass\n", `row 2, kind: unknown word "orignal"; did you mean "original"?`},
		{"several lines", "id,fits,kind,metal,note\np1,grille,original,brass,\"a\nb\"\np2,grill,original,brass,\n", `row 3, fits: no slot or part is called "grill"`},
		{"formula result", "id,fits,kind,metal,quantity\np1,grille,original,brass,#REF!\n", "row 2, quantity: this has to be a whole number"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := importText(t, c.text, Pieces)
			var p Problems
			if !errors.As(err, &p) {
				t.Fatalf("%v", err)
			}
			var all []string
			for _, one := range p {
				all = append(all, one.String())
			}
			if !strings.Contains(strings.Join(all, "\n"), c.want) {
				t.Errorf("got %q, want %q", all, c.want)
			}
		})
	}
	_, _, err := importText(t, "id,fits,kind,metal\np1,grille,original,brass\n", Leads)
	if p := (Problems{}); !errors.As(err, &p) || !strings.Contains(p[0].String(), "row 2, chance: a lead has a chance") {
		t.Errorf("a lead without a chance: %v", err)
	}
}

func TestImportTellsEverything(t *testing.T) {
	text := "id,fits,kind,metal\n"
	for i := range 1000 {
		text += fmt.Sprintf("p%d,grille,original,tin%d\n", i, i)
	}
	_, _, err := importText(t, text, Pieces)
	var p Problems
	if !errors.As(err, &p) || len(p) != 1000 {
		t.Errorf("%d problems", len(p))
	}
}

func TestWarnings(t *testing.T) {
	_, done, err := importText(t, "id,fits,kind,metal\n1-Feb,grille,original,brass\n2.00E+05,grille,original,brass\nok,grille,original,brass\n", Pieces)
	if err != nil || len(done.Warnings) != 2 {
		t.Errorf("%+v %v", done, err)
	}
}

func FuzzImport(f *testing.F) {
	f.Add([]byte(goodRow))
	f.Add([]byte("id;fits;kind;metal;price\n'1-2;grille;original;brass;64,00\n"))
	f.Add([]byte("\xff\xfei\x00d\x00"))
	f.Add([]byte("id,note\r\"a\"\"b\",'=x\r"))
	dir := bare(f)
	job := filepath.Join(dir, "job.toml")
	csv, out := filepath.Join(dir, "in.csv"), filepath.Join(dir, "in.toml")
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := os.WriteFile(csv, data, 0o644); err != nil {
			t.Fatal(err)
		}
		for _, w := range All {
			_, err := Import(job, w, csv, out, Reading{}, true)
			if err == nil { // what was written loads, and comes out again
				st, err := catalog.Load(job, catalog.Options{Include: map[string]string{out: out}})
				if err != nil {
					t.Fatalf("%v", err)
				}
				if _, err := Export(st, w, Writing{}); err != nil {
					t.Fatal(err)
				}
				continue
			}
			var p Problems
			if !errors.As(err, &p) || len(p) == 0 {
				t.Fatalf("%v", err)
			}
		}
	})
}
