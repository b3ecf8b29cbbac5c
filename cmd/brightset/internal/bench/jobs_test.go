package bench

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestSeveralJobs: the other jobs of the shop are found where they lie, each with a page of its own, and those that
// are ticked are planned together; what is of another shop, or broken, or lies elsewhere is not among them.
func TestSeveralJobs(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	job := func(title, shop string) string {
		return fmt.Sprintf("[job]\ntitle = %q\nshop = %q\n[slot.a]\n[piece.p]\nfits = [\"a\"]\nkind = \"original\"\n"+
			"metal = \"brass\"\ngrade = 80\n", title, shop)
	}
	write("shop.toml", "[shop]\n")
	write("other/shop.toml", "[shop]\n")
	write("one.toml", job("The first", "shop.toml"))
	write("two.toml", job("The second", "shop.toml"))
	write("boat [3]/job.toml", job("The third", "../shop.toml"))
	write("other/job.toml", job("Another shop's", "shop.toml"))
	write("broken.toml", job("The broken one", "shop.toml")+"nonsense = 1\n")
	write("deep/er/job.toml", job("Too deep", "../../shop.toml"))
	if err := exec.Command("mkfifo", filepath.Join(dir, "pipe.toml")).Run(); err != nil {
		t.Log(err) // a pipe is not waited for, where there are pipes
	}
	s, _ := server(filepath.Join(dir, "one.toml"), "", "")
	var planned []string
	s.opt.Together = func(_ context.Context, jobs []*catalog.State) (string, error) {
		planned = nil
		for _, st := range jobs {
			planned = append(planned, st.Job.Title)
		}
		return "all of them", nil
	}
	h := s.Handler()
	text := get(h, "/jobs").Body.String()
	for _, want := range []string{"The second", "The third", `href="/other?job=two.toml"`} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not there", want)
		}
	}
	for _, not := range []string{"Another shop", "The broken one", "Too deep"} {
		if strings.Contains(text, not) {
			t.Errorf("%q is there", not)
		}
	}
	with := "?with=two.toml&with=boat+%5B3%5D%2Fjob.toml"
	if text := get(h, "/jobs"+with).Body.String(); !strings.Contains(text, "/jobs.part?with=two.toml") ||
		strings.Count(text, " checked") != 2 {
		t.Error(text)
	}
	if text := get(h, "/jobs.part"+with).Body.String(); !strings.Contains(text, "all of them") ||
		strings.Join(planned, ", ") != "The first, The second, The third" {
		t.Error(planned, text)
	}
	if text := get(h, "/other?job=two.toml").Body.String(); !strings.Contains(text, "The second") ||
		!strings.Contains(text, "held in reserve") {
		t.Error(text)
	}
	for _, path := range []string{"/other?job=broken.toml", "/other?job=..%2F..%2Fetc%2Fpasswd",
		"/jobs.part?with=other%2Fjob.toml",
		"/jobs.part"} {
		if w := get(h, path); w.Code != http.StatusNotFound {
			t.Error(path, w.Code)
		}
	}
}
