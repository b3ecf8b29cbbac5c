package sheet

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"brightset/catalog"

	"github.com/BurntSushi/toml"
)

// FuzzImport: whatever a file holds, an import ends with problems in rows that
// there are, or with a file that loads and comes out again.
func FuzzImport(f *testing.F) {
	f.Add([]byte(goodRow), byte(0))
	f.Add([]byte("id;fits;kind;metal;price;chance\n'1-2;grille;original;brass;64,00;0,5\n"), byte(1))
	f.Add([]byte("\xff\xfei\x00d\x00"), byte(2))
	f.Add([]byte("piece,defect\rold,haze\r"), byte(2))
	f.Add([]byte("piece\tplater\tcost\tlevel\nold\tpell\t3\tshow\n"), byte(3))
	dir := bare(f)
	job := filepath.Join(dir, "job.toml")
	text, err := os.ReadFile(job)
	if err != nil {
		f.Fatal(err)
	}
	if err := os.WriteFile(job, append(text, withOld...), 0o644); err != nil {
		f.Fatal(err)
	}
	csv, out := filepath.Join(dir, "in.csv"), filepath.Join(dir, "in.toml")
	f.Fuzz(func(t *testing.T, data []byte, kind byte) {
		if err := os.WriteFile(csv, data, 0o644); err != nil {
			t.Fatal(err)
		}
		w := All[int(kind)%len(All)]
		_, err := Import(job, w, csv, out, Reading{}, true)
		if err == nil { // what was written loads, and comes out again
			st, err := catalog.Load(job, catalog.Options{Include: map[string]string{out: out}})
			if err != nil {
				t.Fatal(err)
			}
			if _, err := Export(st, w, Writing{}); err != nil {
				t.Fatal(err)
			}
			return
		}
		if len(problemsOf(err)) == 0 {
			t.Fatal(err)
		}
		for _, one := range problemsOf(err) {
			if one.Message == "" || one.Row < 0 || !utf8.ValidString(one.String()) {
				t.Fatalf("%+v", one)
			}
		}
	})
}

// FuzzRead: in memory, and so much faster: whatever a file holds, every problem
// is in a row and can be shown, and what is made of the rest is TOML of which
// each line's row is known and each row's names and texts are there.
func FuzzRead(f *testing.F) {
	f.Add([]byte(goodRow), byte(0))
	f.Add([]byte("piece;id;plater;cost;date;fresh\n'1-2;a;x;64,00;'2026-11-02;TRUE\n;;;;;\nb;;y;1;;\nb;;y;1;;\n"), byte(3))
	f.Add([]byte("piece,id,defect,extent\r\"a\"\"b\",,'=x,\"0,5\"\r\"a\n"), byte(2))
	f.Add([]byte("sep=\t\nid\tfits\tkind\tmetal\tnote\t\n'007\ta|b\tx\ty\t 50\" z \t\n"), byte(1))
	f.Add([]byte("\xfe\xff\x00i\x00d\xd8\x00"), byte(0))
	f.Fuzz(func(t *testing.T, data []byte, kind byte) {
		w := All[int(kind)%len(All)]
		tab, problems := read(data, w, Reading{})
		lines := strings.Count(string(data), "\n") + strings.Count(string(data), "\r") + 1
		if tab != nil {
			problems = append(problems, tab.doubles()...)
			out, more := toTOML(tab, w, "x\ny")
			problems = append(problems, more...)
			root := map[string]any{}
			if _, err := toml.Decode(out.b.String(), &root); err != nil {
				t.Fatalf("%v\n%s", err, out.b.String())
			}
			if n := strings.Count(out.b.String(), "\n"); n != len(out.places) {
				t.Fatalf("%d lines, %d places", n, len(out.places))
			}
			pieces, _ := root["piece"].(map[string]any)
			for _, r := range tab.rows {
				checkRow(t, pieces, r, w)
			}
			tab.locate(problems)
		}
		for _, one := range problems {
			if one.Message == "" || one.Row < 0 || one.Row > lines || strings.ContainsFunc(one.String(), unicode.IsControl) ||
				!utf8.ValidString(one.String()) {
				t.Fatalf("%+v", one)
			}
		}
	})
}

// checkRow sees that the texts of a row arrived.
func checkRow(t *testing.T, pieces map[string]any, r row, w What) {
	owner := r.cells[columnsOf[w][0].name]
	if owner == "" || w == Prices { // prices stand with their plater
		return
	}
	piece, ok := pieces[owner].(map[string]any)
	if !ok {
		t.Fatalf("no %q in %v", owner, pieces)
	}
	if w != Pieces && w != Leads {
		group, _ := piece[strings.TrimSuffix(string(w), "s")].(map[string]any)
		if id := r.cells["id"]; id != "" && group[id] == nil {
			t.Fatalf("no %q in %v", id, piece)
		}
		return
	}
	for _, key := range []string{"note", "kind"} {
		if v := r.cells[key]; v != "" && piece[key] != v {
			t.Fatalf("%s of %q is %q, not %q", key, owner, piece[key], v)
		}
	}
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

// records takes a whole file apart. Rows with a problem are left out.
func records(src string, delimiter byte) ([]record, []Problem) {
	r := &reader{src: src, delimiter: delimiter}
	var out []record
	for r.more() {
		if rec, ok := r.next(); ok {
			out = append(out, record{rec.row, slices.Clone(rec.cells)})
		}
	}
	return out, r.problems
}
