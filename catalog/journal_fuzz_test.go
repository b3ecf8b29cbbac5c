package catalog

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const journalHead = `{"version":1,"seq":1,"id":"a","time":"2031-01-01T00:00:00Z","action":"x","base":"","changes":[`

// FuzzJournals: whatever bytes stand in the two journals, loading ends with a state or
// with mistakes that can be shown, and no file of the user's is touched.
func FuzzJournals(f *testing.F) {
	for _, seed := range []string{
		"", "hello\n", "\n", "{}\n",
		journalHead + `{"target":["piece","p"],"old":{"stage":null},"new":{"stage":"broken"}}]}` + "\n",
		journalHead + `{"target":["piece","p","sent"],"old":{},"new":{"plater":"n","cost":"1.00","grade":80,` +
			`"on":"2031-01-01","count":1}}]}` + "\n",
		journalHead + `{"target":["piece"],"old":{},"new":{"p":1}},{"target":["job"],"old":{},"new":{"title":{"a":[1,2.5,` +
			`null]}}}]}` + "\n",
		journalHead + `{"target":[],"old":{"a":1},"new":{"cost":"1.00"}}]}` + "\n",
		strings.Replace(journalHead, "changes", "CHANGES", 1) + `{"TARGET":[],"Old":{},"NEW":{"cost":"1.00"}}]}` + "\n",
		journalHead + `{"target":["spent","1"],"old":{},"new":{"cost":"1.00","for":"x"}},{"target":["plan","a"],"old":{},` +
			`"new":{"piece":"job:p","fallback":{"work":"x"}}}]}` + "\n",
		journalHead + `{"target":["piece","d"],"old":{"job":null},"new":{"job":"job.toml"}}],"job":"job.toml"}` + "\n" +
			`{"version":1,"seq":2,"id":"b","time":"2031-01-01T00:00:01Z","action":"undo","of":1,"base":"","changes":[]}` + "\n",
	} {
		f.Add([]byte(seed), []byte(seed))
		f.Add([]byte(seed), []byte(nil))
	}
	dir := swift(f)
	job := []byte("[job]\ntitle = \"x\"\nshop = \"shop.toml\"\n[slot.a]\n[plater.n]\n[piece.p]\nfits = [\"a\"]\nkind = " +
		"\"original\"\nmetal = \"brass\"\n")
	shop := []byte("[piece.d]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"brass\"\n")
	path, shopPath := filepath.Join(dir, "job.toml"), filepath.Join(dir, "shop.toml")
	for name, text := range map[string][]byte{path: job, shopPath: shop} {
		if err := os.WriteFile(name, text, 0o644); err != nil {
			f.Fatal(err)
		}
	}
	f.Fuzz(func(t *testing.T, inJob, inShop []byte) {
		for name, text := range map[string][]byte{JournalOf(path): inJob, JournalOf(shopPath): inShop} {
			if err := os.WriteFile(name, text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		st, err := Load(path, Options{})
		var m *Mistakes
		if (st == nil) == (err == nil) || (err != nil && !errors.As(err, &m)) {
			t.Fatalf("%v %v", st, err)
		}
		if st != nil {
			checkState(t, st)
		} else if m.Error() == "" || len(m.List) == 0 {
			t.Fatal("mistakes without a word")
		}
		for name, was := range map[string][]byte{path: job, shopPath: shop, JournalOf(path): inJob,
			JournalOf(shopPath): inShop} {
			if now, _ := os.ReadFile(name); string(now) != string(was) {
				t.Fatalf("%s was changed", name)
			}
		}
	})
}
