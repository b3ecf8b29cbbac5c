package catalog

import (
	"os"
	"testing"
)

// FuzzLoad: whatever the files hold, loading ends with a state or with
// mistakes that can be printed and point into the files.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(goodJob), []byte(goodShop))
	for _, c := range mistakeTests {
		f.Add([]byte(c.job), []byte(c.shop))
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
