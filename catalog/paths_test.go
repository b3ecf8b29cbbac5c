package catalog

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// inCapitalsToo gives files of a folder a second name, as where capitals and small letters are
// the same: there "JOB.toml" is "job.toml" without anybody's doing.
func inCapitalsToo(t *testing.T, dir string, names ...string) {
	t.Helper()
	for _, name := range names {
		if _, err := os.Stat(filepath.Join(dir, capital(name))); err == nil {
			continue // they are the same here
		}
		if err := os.Link(filepath.Join(dir, name), filepath.Join(dir, capital(name))); err != nil {
			t.Skip(err)
		}
	}
}

func capital(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// TestJobInCapitals: what a job took of the shop's is its own, however its name is written.
func TestJobInCapitals(t *testing.T) {
	dir := recordedJob(t)
	path, shop := filepath.Join(dir, "job.toml"), filepath.Join(dir, "shop.toml")
	d := openTestRecorder(t, path)
	if _, err := d.Record(taken(d)); err != nil {
		t.Fatal(err)
	}
	inCapitalsToo(t, dir, "job.toml", "job.journal", "shop.toml")
	expect(t, "in capitals", filepath.Join(dir, "Job.toml"), "ours")
	expect(t, "another one", filepath.Join(dir, "other.toml"), "elsewhere")
	a, b := openTestRecorder(t, path).State, openTestRecorder(t, filepath.Join(dir, "other.toml")).State
	b.Shop.File = filepath.Join(dir, "Shop.toml")
	if !SameRecord(a, b) {
		t.Error("one shop in two spellings has two journals")
	}
	if err := os.Symlink(shop, filepath.Join(dir, "SHOP.toml")); err == nil {
		if b.Shop.File = filepath.Join(dir, "SHOP.toml"); SameRecord(a, b) {
			t.Error("a link has the journal of what it leads to")
		}
	}
}

// TestIncludedInCapitals: a file that is included in two spellings is read once, and that is told.
func TestIncludedInCapitals(t *testing.T) {
	inFolder(t, map[string]string{"more.toml": includedPieces,
		"job.toml": strings.Replace(includingJob, `["more.toml"]`, `["more.toml", "More.toml"]`, 1)})
	inCapitalsToo(t, ".", "more.toml")
	_, err := Load("job.toml", Options{})
	if err == nil || !strings.Contains(err.Error(), `"More.toml": this file is read already`) ||
		strings.Contains(err.Error(), "written twice") {
		t.Errorf("%v", err)
	}
}

// TestJournalInCapitals: a job and a shop whose journals would be one file on Windows are told so
// everywhere: folders are copied from one computer to another.
func TestJournalInCapitals(t *testing.T) {
	inFolder(t, map[string]string{"Job.cfg": "[shop]\n",
		"job.toml": "[job]\ntitle = \"t\"\nshop = \"Job.cfg\"\n[slot.bar]\narea = \"1 dm2\"\n"})
	if _, err := Load("job.toml", Options{}); err == nil || !strings.Contains(err.Error(), "would both have the journal") {
		t.Errorf("%v", err)
	}
}

// TestPathOfWindows: of a path as Windows shows it, how it has to be written is told.
func TestPathOfWindows(t *testing.T) {
	for shop, want := range map[string]string{
		`"C:\shop\shop.toml"`:    "write / for every backslash",
		`"C:\new\table.toml"`:    `write shop = "C:/new/table.toml"`,
		`"\\big\new\shop.toml"`:  `write / for every backslash`,
		`"\\big\new\tools.toml"`: `write shop = "//big/new/tools.toml"`,
	} {
		inFolder(t, map[string]string{"job.toml": "[job]\ntitle = \"t\"\nshop = " + shop + "\n[slot.bar]\n"})
		if _, err := Load("job.toml", Options{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", shop, err)
		}
	}
	if os.PathSeparator == '/' {
		inFolder(t, map[string]string{"job.toml": "[job]\ntitle = \"t\"\nshop = 'far\\shop.toml'\n[slot.bar]\n"})
		if _, err := Load("job.toml", Options{}); err == nil || !strings.Contains(err.Error(), "write / between folders") {
			t.Errorf("%v", err)
		}
	}
}
