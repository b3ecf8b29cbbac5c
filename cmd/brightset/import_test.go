package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/cmd/brightset/internal/report"
)

// A whole tour: tables come out of the demo, go into a job with the same slots,
// are included as the program says, and the job is planned.
func TestSpreadsheetTour(t *testing.T) {
	folder := t.TempDir()
	if err := os.CopyFS(folder, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(folder, "job.toml")
	text, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	slots, _, _ := strings.Cut(string(text), "# ---- hood crest")
	write := func(text string) {
		if err := os.WriteFile(job, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write(slots)
	for _, what := range []string{"pieces", "findings", "quotes"} {
		csv := filepath.Join(folder, what+".csv")
		if code, _, errs := brightset("export", "testdata/demo", "--what", what, "--out", csv); code != exitAnswered ||
			errs != "" {
			t.Fatalf("export %s: exit %d, %s", what, code, errs)
		}
		code, out, errs := brightset("import", folder, csv, "--what", what)
		if code != exitAnswered || errs != "" {
			t.Fatalf("import %s: exit %d, %s", what, code, errs)
		}
		_, line, ok := strings.Cut(out, ":\n  include = ")
		if !ok {
			t.Fatalf("no line to add in %q", out)
		}
		write("include = " + line + slots)
		if code, out, errs := brightset("import", folder, csv, "--what", what, "--replace"); code != exitAnswered ||
			!strings.Contains(out, "includes it already") {
			t.Errorf("again: exit %d, %s%s", code, out, errs)
		}
		if _, again, _ := brightset("export", folder, "--what", what); again != string(must(os.ReadFile(csv))) {
			t.Errorf("%s came out differently:\n%s", what, again)
		}
	}
	if code, _, errs := brightset("plan", folder); code != exitAnswered {
		t.Errorf("plan: exit %d, %s", code, errs)
	}
}

func must(text []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return text
}

// Of a thousand mistakes two hundred are shown and the others counted, none
// wider than the screen, and nothing is written.
func TestImportManyMistakes(t *testing.T) {
	folder := t.TempDir()
	csv := filepath.Join(folder, "many.csv")
	text := "id,fits,kind,metal\n" + strings.Repeat("p\x1b[31m,grille,original,a metal that nobody has ever heard of\n",
		1000)
	if err := os.WriteFile(csv, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	code, out, errs := brightset("import", "testdata/demo", csv, "--out", filepath.Join(folder, "many.toml"))
	if code != exitMistakes || out != "" || !strings.HasSuffix(errs, "nothing was written\n") ||
		!strings.Contains(errs, " more\n") {
		t.Errorf("exit %d, %q, %.300q", code, out, errs)
	}
	for _, line := range strings.Split(errs, "\n") {
		if report.Width(line) > report.Columns || strings.ContainsRune(line, 0x1b) {
			t.Errorf("%q", line)
		}
	}
	if files, _ := filepath.Glob(filepath.Join(folder, "*.toml")); len(files) > 0 {
		t.Errorf("written: %v", files)
	}
}
