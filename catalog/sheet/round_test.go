package sheet

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"brightset/catalog"
)

// nasty are texts that spreadsheets, CSV and TOML stumble over.
var nasty = []string{"1-2", "007", "3E5", "Feb-1", "=2+3", "-x", "@a", "a\"b", "ö ü", "'quoted", "true", "'=x",
	"''007", "1.10", "a|b", "a;b,c", "+49", "12345678901234567", "MARCH1", "10:30", "2026-11-02", "sep=;", "#",
	"a.b", "[x]", "日本", "C:\\x", "#REF", "-5", "50\"", "#REF!", "#n/a", "5%", "$5", "3 PM", "1 1/2", ".5",
	"Mar 5, 2026", "12"}

var nastyTexts = append([]string{"", " outer spaces ", "line\nline\n", "\ttab",
	"50\" wide, =SUM(A1)\nsecond; and \\more", "'57 fender", "\"quoted\"", "\n", "\u00a0", " =SUM(A1)", " '=x", " 007",
	"#REF! ", "\n=x"}, nasty...)

// again imports what was exported into an empty job and exports it once more.
func again(t *testing.T, st *catalog.State, how Writing) (first, second map[What]string) {
	t.Helper()
	tables := []What{Pieces, Findings, Quotes}
	var files []string
	for _, w := range tables {
		files = append(files, string(w)+".toml")
	}
	dir := bare(t, files...)
	for _, name := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(mark+"nothing"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	job := filepath.Join(dir, "job.toml")
	first, second = map[What]string{}, map[What]string{}
	for _, w := range tables {
		text, err := Export(st, w, how)
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
			t.Fatalf("%+v %s: %v\n%s", how, w, all(err), text)
		}
		if !done.Included {
			t.Errorf("%s: the job includes it, and it was not noticed", w)
		}
	}
	st = load(t, job)
	for w := range first {
		second[w], _ = Export(st, w, how)
	}
	return first, second
}

var dresses = []Writing{{}, {Mark: true}, {Semicolon: true}, {Semicolon: true, DecimalComma: true}}

// TestRoundTrip: what was exported, imported into an empty job and exported
// again is the same to the byte, in every dress.
func TestRoundTrip(t *testing.T) {
	demo := load(t, "../../testdata/demo/job.toml")
	for i, id := range []string{"1-2", "007", "3E5", "Feb-1", "=2+3", "-x", "@a", "a\"b", "ö ü", "'quoted", "true"} {
		demo.Pieces[i].ID = id
		demo.Pieces[i].Note = nastyTexts[3+i%5]
	}
	for _, how := range dresses {
		first, second := again(t, demo, how)
		for w, want := range first {
			if got := second[w]; got != want {
				t.Errorf("%+v %s: got\n%s\nwant\n%s", how, w, got, want)
			}
		}
	}
}

// TestRandomRoundTrip does the same with seeded pieces made at random.
func TestRandomRoundTrip(t *testing.T) {
	for seed := range uint64(40) {
		st := randomPieces(t, rand.New(rand.NewPCG(seed, 1)))
		first, second := again(t, st, dresses[seed%4])
		for w, want := range first {
			if got := second[w]; got != want {
				t.Fatalf("seed %d %s: got\n%s\nwant\n%s", seed, w, got, want)
			}
		}
	}
}

// randomPieces is the demo with pieces of our own, as if they had been loaded.
func randomPieces(t *testing.T, r *rand.Rand) *catalog.State {
	st := load(t, "../../testdata/demo/job.toml")
	st.Pieces = nil
	pick := func(list []string) string { return list[r.IntN(len(list))] }
	maybe := func(m catalog.Val[catalog.Centi]) catalog.Val[catalog.Centi] { m.Set = r.IntN(2) == 0; return m }
	seen := map[string]bool{}
	for range 12 {
		p := catalog.Piece{
			ID: pick(nasty), Name: pick(nastyTexts), Tag: pick(nastyTexts), Place: pick(nastyTexts), Marks: pick(nastyTexts),
			Note: pick(nastyTexts),
			Kind: catalog.OldStock, Vendor: catalog.None, Bundle: catalog.None, Metal: r.IntN(len(st.Tables.Metals)),
			Quantity: 1 + r.IntN(9),
			Chance:   catalog.Micro(1 + r.IntN(1e6)), Grade: maybe(catalog.Val[catalog.Centi]{V: catalog.Centi(r.IntN(100_01))}),
			Tone: maybe(catalog.Val[catalog.Centi]{V: catalog.Centi(r.IntN(20_01) - 10_00)}),
		}
		if seen[p.ID] {
			continue
		}
		seen[p.ID] = true
		for s := range st.Slots {
			if s == 0 || r.IntN(3) == 0 {
				p.Fits = append(p.Fits, s)
			}
		}
		if r.IntN(2) == 0 {
			p.Value = catalog.Cents(r.IntN(1e6))
		} else {
			p.Side, p.Vendor, p.Price = catalog.Vendors, r.IntN(len(st.Vendors)), catalog.Cents(r.IntN(1e6))
			if r.IntN(3) == 0 { // by the box
				box := 2 + r.IntN(9)
				st.Bundles = append(st.Bundles, catalog.Bundle{ID: p.ID, Vendor: p.Vendor, Price: p.Price, Box: box})
				p.Bundle, p.Price, p.Quantity = len(st.Bundles)-1, 0, box*(1+r.IntN(4))
			}
		}
		for i := range r.IntN(3) {
			p.Findings = append(p.Findings, catalog.Finding{ID: fmt.Sprint(pick(nasty), i),
				Defect:   r.IntN(len(st.Tables.Defects)),
				Severity: catalog.Severity(r.IntN(3)), Extent: catalog.Micro(r.IntN(1e6 + 1)), Count: 1 + r.IntN(9),
				Where: catalog.Back})
		}
		for i := range r.IntN(3) {
			p.Quotes = append(p.Quotes, catalog.Quote{ID: fmt.Sprint(pick(nasty), i), Plater: r.IntN(len(st.Platers)),
				Cost: catalog.Cents(r.IntN(1e7)), Firm: catalog.AfterStrip,
				Breakage: catalog.Val[catalog.Micro]{V: catalog.Micro(r.IntN(1e6)), Set: true},
				Grade:    catalog.Val[catalog.Centi]{V: 80_50, Set: true}})
		}
		st.Pieces = append(st.Pieces, p)
	}
	return st
}
