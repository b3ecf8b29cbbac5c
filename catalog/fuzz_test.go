package catalog

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// FuzzLoad: whatever the files hold, loading ends with a state or with
// mistakes that can be printed and point into the files. The files are in
// memory: writing them took most of the time.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(goodJob), []byte(goodShop), []byte(includedPieces))
	for _, c := range mistakeTests {
		f.Add([]byte(c.job), []byte(c.shop), []byte(nil))
	}
	for _, folder := range []string{"broken", "trade", ""} {
		jobs, err := filepath.Glob(filepath.Join("..", "testdata", folder, "*", "job.toml"))
		if err != nil || len(jobs) == 0 {
			f.Fatalf("no jobs in %q: %v", folder, err)
		}
		for _, path := range jobs {
			job, _ := os.ReadFile(path)
			shop, _ := os.ReadFile(filepath.Join(filepath.Dir(path), "shop.toml"))
			f.Add(job, shop, []byte(nil))
		}
	}
	f.Fuzz(func(t *testing.T, job, shop, included []byte) {
		files := map[string][]byte{"job.toml": job, "shop.toml": shop, "own.toml": included}
		s, err := loadFrom(files)
		again, errAgain := loadFrom(files)
		if !reflect.DeepEqual(s, again) || !reflect.DeepEqual(err, errAgain) {
			t.Fatalf("a second load differs: %v; %v", err, errAgain)
		}
		if err == nil {
			checkState(t, s)
			return
		}
		m, ok := err.(*Mistakes)
		if !ok || len(m.List) == 0 || s != nil {
			t.Fatalf("state %v, error %v", s, err)
		}
		for _, one := range m.List {
			checkMistake(t, one, files[one.File])
		}
		_ = m.Error()
	})
}

// loadFrom loads job.toml from files in memory.
func loadFrom(files map[string][]byte) (*State, error) {
	l := newLoader(Options{})
	l.read = func(path string) (string, *Mistake) {
		if data, ok := files[path]; ok {
			return checkText(data)
		}
		return "", unreadable(fs.ErrNotExist)
	}
	return l.load("job.toml")
}

// checkMistake: a mistake says something about a place that there is, in text
// that a terminal can show.
func checkMistake(t *testing.T, m Mistake, file []byte) {
	t.Helper()
	lines := bytes.Count(file, []byte("\n")) + 1
	if m.File == "" || m.Message == "" || m.Line < 0 || m.Line > lines || m.Line > 0 && (m.Column < 1 || m.Width < 1) {
		t.Fatalf("%+v in a file of %d lines", m, lines)
	}
	if s := m.String(); !utf8.ValidString(s) || strings.ContainsFunc(strings.ReplaceAll(s, "\n", ""), unicode.IsControl) {
		t.Fatalf("%q can't be shown", s)
	}
}

// checkState: every index of a state points into its list, every number is
// within its bounds.
func checkState(t *testing.T, s *State) {
	t.Helper()
	within := func(what string, i, n int) {
		if i < None || i >= n {
			t.Fatalf("%s %d of %d", what, i, n)
		}
	}
	share := func(what string, m Micro) {
		if m < 0 || m > One {
			t.Fatalf("%s is %d", what, m)
		}
	}
	for i := range s.Pieces {
		p := &s.Pieces[i]
		within("vendor", p.Vendor, len(s.Vendors))
		within("bundle", p.Bundle, len(s.Bundles))
		within("metal", p.Metal, len(s.Tables.Metals))
		share("chance", p.Chance)
		for _, slot := range p.Fits {
			within("slot", slot, len(s.Slots))
		}
		for _, f := range p.Findings {
			within("defect", f.Defect, len(s.Tables.Defects))
			share("extent", f.Extent)
		}
		for _, q := range p.Quotes {
			within("plater", q.Plater, len(s.Platers))
			share("breakage", q.Breakage.V)
		}
		if p.Price < 0 || p.Value < 0 || p.Quantity < 1 || p.ID == "" {
			t.Fatalf("%+v", p)
		}
	}
	for _, trade := range s.Trades {
		within("give", trade.Give, len(s.Pieces))
		within("get", trade.Get, len(s.Pieces))
	}
	s.Clone()
}

// FuzzScan: of every table that the decoder accepts, the scan knows where each
// key stands.
func FuzzScan(f *testing.F) {
	f.Add(goodJob)
	f.Add(goodShop)
	f.Add("a.\"b c\".'d' = {x = 1, y.z = [\"]\", '''\n'''], } # }\n\"\\u0061b\" = \"\\\"\"\n[ q . r ]\nx=1979-05-27 " +
		"07:32:00\n")
	f.Fuzz(func(t *testing.T, src string) {
		text, problem := checkText([]byte(src))
		if problem != nil {
			return
		}
		s := scan(text)
		root := map[string]any{}
		if _, err := toml.Decode(text, &root); err != nil || s.deep != nil || s.much != nil {
			return
		}
		checkPlaces(t, s, nil, root, text)
	})
}

func checkPlaces(t *testing.T, s *scanner, path []string, m map[string]any, src string) {
	for k, v := range m {
		full := append(append([]string{}, path...), k)
		p, ok := s.places[join(full...)]
		if !ok || p.key.line < 1 || p.value.line < p.key.line || p.key.column < 1 || p.value.width < 1 {
			t.Fatalf("%q: place %+v, %v in %q", full, p, ok, src)
		}
		if sub, isTable := v.(map[string]any); isTable {
			checkPlaces(t, s, full, sub, src)
		}
	}
}
