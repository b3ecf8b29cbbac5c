package catalog

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestDrives: a file is found as it is named, with its drive, from the root of the drive on which
// the job lies, on another computer, or beside the job.
func TestDrives(t *testing.T) {
	for _, c := range []struct{ dir, name, want string }{
		{`D:\car`, "shop.toml", `D:\car\shop.toml`},
		{`D:\car`, "../shop.toml", `D:\shop.toml`},
		{`D:\car`, `C:\shop\shop.toml`, `C:\shop\shop.toml`},
		{`D:\car`, "C:/shop/shop.toml", `C:\shop\shop.toml`},
		{`D:\car`, "c:shop.toml", "c:shop.toml"},
		{`D:\car`, "/shop/shop.toml", `D:\shop\shop.toml`},
		{`D:\car`, "//house/shop/shop.toml", `\\house\shop\shop.toml`},
		{`\\house\jobs\car`, "/shop.toml", `\\house\jobs\shop.toml`},
	} {
		if got := Beside(c.dir, c.name); got != c.want {
			t.Errorf("%s in %s: %s, want %s", c.name, c.dir, got, c.want)
		}
	}
	for job, want := range map[string]string{`D:\car\job.toml`: "D:/car/job.toml", `C:\shop\car\job.toml`: "car/job.toml",
		`c:\SHOP\job.toml`: "job.toml", `\\house\car\job.toml`: "//house/car/job.toml"} {
		st := &State{}
		st.Job.File, st.Shop.File = job, `C:\shop\shop.toml`
		if got := st.JobKey(); got != want {
			t.Errorf("%s: %s, want %s", job, got, want)
		}
	}
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	st := &State{} // as it was typed, on a drive that the shop's file does not lie on
	st.Job.File, st.Shop.File = "job.toml", `Q:\shop.toml`
	if got, want := st.JobKey(), filepath.ToSlash(filepath.Join(here, "job.toml")); got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestCapitalsAreTheSame: what a job took is its own in whatever spelling it and its folder are
// named, and no file is read twice.
func TestCapitalsAreTheSame(t *testing.T) {
	dir := recordedJob(t)
	path := filepath.Join(dir, "job.toml")
	d := openTestRecorder(t, path)
	if _, err := d.Record(taken(d)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { // one by one: old loaders for Windows' programs can't do it at once
		all, _ := filepath.Glob(filepath.Join(dir, "*"))
		for _, name := range append(all, dir) {
			os.Remove(name)
		}
	})
	other := filepath.Join(strings.ToUpper(dir), "JOB.TOML")
	expect(t, "in capitals", other, "ours")
	if a, b := openTestRecorder(t, path).State, openTestRecorder(t, other).State; !SameJob(a, b) || !SameRecord(a, b) {
		t.Error("one job in two spellings is two")
	}
	more, twice := filepath.Join(dir, "more.toml"), filepath.Join(dir, "twice.toml")
	if err := os.WriteFile(more, []byte("[metal.brass]\nbase = 0.5\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	text := `include = ["more.toml", "More.TOML"]` + "\n" + read(t, path)
	if err := os.WriteFile(twice, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(twice, Options{}); err == nil || !strings.Contains(err.Error(), "read already") {
		t.Errorf("included twice: %v", err)
	}
}
