package sheet

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
)

// Only a file that import has made is ever replaced, and only when asked.
func TestNeverOverwrites(t *testing.T) {
	dir := bare(t)
	job, csv := filepath.Join(dir, "job.toml"), filepath.Join(dir, "in.csv")
	if err := os.WriteFile(csv, []byte(goodRow), 0o644); err != nil {
		t.Fatal(err)
	}
	mine, out := filepath.Join(dir, "shop.toml"), filepath.Join(dir, "in.toml")
	before, _ := os.ReadFile(mine)
	for _, path := range []string{mine, job, dir} {
		for _, replace := range []bool{false, true} {
			if _, err := Import(job, Pieces, csv, path, Reading{}, replace); err == nil ||
				!strings.Contains(err.Error(), "stays as it is") {
				t.Errorf("%s: %v", path, err)
			}
		}
	}
	if after, _ := os.ReadFile(mine); string(after) != string(before) {
		t.Error("the shop's file was touched")
	}
	for _, c := range []struct {
		replace bool
		want    string
	}{{false, "<nil>"}, {false, "add --replace"}, {true, "<nil>"}} {
		if _, err := Import(job, Pieces, csv, out, Reading{}, c.replace); !strings.Contains(fmt.Sprint(err), c.want) {
			t.Errorf("%v: %v", c, err)
		}
	}
	if err := os.WriteFile(out, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	tmp, err := writeBeside(out, "new")
	if err != nil {
		t.Fatal(err)
	}
	for _, replace := range []bool{false, true} { // it has come there in the meantime
		if err := moveTo(tmp, out, replace); err == nil {
			t.Errorf("%v: overwritten", replace)
		}
	}
}

// What a job includes already is found under whatever name the file is given.
func TestIncludeList(t *testing.T) {
	dir := bare(t, "other.toml")
	job, csv := filepath.Join(dir, "job.toml"), filepath.Join(dir, "in.csv")
	for name, text := range map[string]string{"in.csv": goodRow, "other.toml": ""} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	done, err := Import(job, Pieces, csv, filepath.Join(dir, "in.toml"), Reading{}, false)
	if err != nil || done.Included || fmt.Sprint(done.Include) != "[other.toml in.toml]" {
		t.Errorf("%+v %v", done, err)
	}
	t.Chdir(dir)
	text, _ := os.ReadFile("job.toml")
	if err := os.WriteFile("job.toml", []byte(strings.Replace(string(text), `"other.toml"`, `"in.toml"`, 1)),
		0o644); err != nil {
		t.Fatal(err)
	}
	for _, out := range []string{"in.toml", "./in.toml", filepath.Join(dir, "in.toml")} {
		done, err := Import("job.toml", Pieces, "in.csv", out, Reading{}, true)
		if err != nil || !done.Included {
			t.Errorf("%s: %+v %v", out, done, all(err))
		}
	}
	if _, err := catalog.Load("job.toml", catalog.Options{}); err != nil {
		t.Error(err)
	}
}

// TestIncludedInCapitals: a file that the job includes in another spelling is written anew as any
// other, and not read beside what takes its place.
func TestIncludedInCapitals(t *testing.T) {
	dir := bare(t, "In.toml")
	job, csv, out := filepath.Join(dir, "job.toml"), filepath.Join(dir, "in.csv"), filepath.Join(dir, "in.toml")
	if err := os.WriteFile(csv, []byte(goodRow), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(out, []byte(mark+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(dir, "In.toml")
	if _, err := os.Stat(other); err != nil { // where capitals are others, a second name stands for it
		if err := os.Link(out, other); err != nil {
			t.Skip(err)
		}
	}
	done, err := Import(job, Pieces, csv, out, Reading{}, true)
	if err != nil || !done.Included {
		t.Errorf("%+v, %v", done, err)
	}
	if err := os.Remove(other); err == nil {
		os.Link(out, other)
	}
	if done, err = Import(job, Pieces, csv, out, Reading{}, true); err != nil || !done.Included {
		t.Errorf("again: %+v, %v", done, err)
	}
}
