package sheet

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"brightset/catalog"
)

// FuzzImport: whatever a file holds, an import ends with problems in rows that
// there are, or with a file that loads and comes out again.
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
			for _, one := range p {
				if one.Message == "" || one.Row < 0 || !utf8.ValidString(one.String()) {
					t.Fatalf("%+v", one)
				}
			}
		}
	})
}

// FuzzRecords: rows that are written as RFC 4180 has them are read back as they
// were, and whatever is read is read the same with other line ends.
func FuzzRecords(f *testing.F) {
	f.Add("a", "b\"c", "d\ne", byte(','))
	f.Add("50\" x", " \"", "\t", byte(';'))
	f.Fuzz(func(t *testing.T, a, b, c string, delimiter byte) {
		if !strings.ContainsRune(",;\t", rune(delimiter)) || strings.Contains(a+b+c, "\r") {
			return
		}
		want := []string{a, b, c}
		line := ""
		for i, cell := range want {
			if i > 0 {
				line += string(delimiter)
			}
			line += "\"" + strings.ReplaceAll(cell, "\"", "\"\"") + "\""
		}
		for _, end := range []string{"\n", "\r\n", "\r", ""} {
			list, problems := records(line+end, delimiter)
			if len(problems) > 0 || len(list) != 1 || !slices.Equal(list[0].cells, want) {
				t.Fatalf("%q: %v %v", line+end, list, problems)
			}
		}
		bare := a + "\n" + b + string(delimiter) + c
		lf, p := records(bare, delimiter)
		cr, q := records(strings.ReplaceAll(bare, "\n", "\r\n"), delimiter)
		if len(lf) != len(cr) || len(p) != len(q) {
			t.Fatalf("%q: %v %v, %v %v", bare, lf, cr, p, q)
		}
		for i := range lf {
			if !slices.Equal(lf[i].cells, cr[i].cells) || lf[i].row != cr[i].row {
				t.Fatalf("%q: %v %v", bare, lf[i], cr[i])
			}
		}
	})
}

// FuzzGuard: what is guarded comes back, and never begins a formula.
func FuzzGuard(f *testing.F) {
	for _, s := range nastyTexts {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		cell := guard(s, free)
		if got := unguard(cell, free); got != s {
			t.Fatalf("%q became %q and %q", s, cell, got)
		}
		if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
			t.Fatalf("%q is not guarded: %q", s, cell)
		}
	})
}
