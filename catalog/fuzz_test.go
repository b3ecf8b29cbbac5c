package catalog

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/BurntSushi/toml"
)

// FuzzLoad: whatever the files hold, loading ends with a state or with
// mistakes that can be printed and point into the files.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(goodJob), []byte(goodShop))
	for _, c := range mistakeTests {
		f.Add([]byte(c.job), []byte(c.shop))
	}
	for _, folder := range []string{"broken", "trade", ""} {
		jobs, err := filepath.Glob(filepath.Join("..", "testdata", folder, "*", "job.toml"))
		if err != nil || len(jobs) == 0 {
			f.Fatalf("no jobs in %q: %v", folder, err)
		}
		for _, path := range jobs {
			job, _ := os.ReadFile(path)
			shop, _ := os.ReadFile(filepath.Join(filepath.Dir(path), "shop.toml"))
			f.Add(job, shop)
		}
	}
	inFolder(f, nil)
	f.Fuzz(func(t *testing.T, job, shop []byte) {
		for name, data := range map[string][]byte{"job.toml": job, "shop.toml": shop} {
			if err := os.WriteFile(name, data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		s, err := Load("job.toml", Options{})
		if err == nil {
			s.Clone()
			return
		}
		m, ok := err.(*Mistakes)
		if !ok || len(m.List) == 0 || s != nil {
			t.Fatalf("state %v, error %v", s, err)
		}
		for _, one := range m.List {
			if one.Message == "" || one.Line > 0 && (one.Column < 1 || one.Width < 1) {
				t.Fatalf("%+v", one)
			}
		}
		_ = m.Error()
	})
}

// FuzzScan: of every table that the decoder accepts, the scan knows where each
// key stands.
func FuzzScan(f *testing.F) {
	f.Add(goodJob)
	f.Add(goodShop)
	f.Add("a.\"b c\".'d' = {x = 1, y.z = [\"]\", '''\n'''], } # }\n\"\\u0061b\" = \"\\\"\"\n[ q . r ]\nx=1979-05-27 07:32:00\n")
	f.Fuzz(func(t *testing.T, src string) {
		text, problem := checkText([]byte(src))
		if problem != nil {
			return
		}
		s := scan(text)
		root := map[string]any{}
		if _, err := toml.Decode(text, &root); err != nil || s.deep != nil {
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
