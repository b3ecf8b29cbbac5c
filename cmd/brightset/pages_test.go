package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// picture is a photo within a page; its bytes hang on the version of the encoder.
var picture = regexp.MustCompile(`data:image/jpeg;base64,[A-Za-z0-9+/=]+`)

// TestPages compares the papers and the report of the demo with testdata/golden.
func TestPages(t *testing.T) {
	dir := t.TempDir()
	if code, _, errs := brightset("orders", "testdata/demo", "--out", dir, "--spec", "--unfitted",
		"the car is away"); code != 0 {
		t.Fatal(code, errs)
	}
	if code, _, errs := brightset("report", "testdata/demo", "--out", filepath.Join(dir, "report.html"), "--time-limit",
		"10m"); code != 0 {
		t.Fatal(code, errs)
	}
	files, err := os.ReadDir(dir)
	if err != nil || len(files) != 12 {
		t.Fatal(len(files), err)
	}
	for _, f := range files {
		text, err := os.ReadFile(filepath.Join(dir, f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		sameAsGolden(t, "page-"+strings.TrimSuffix(f.Name(), ".html"), picture.ReplaceAllString(string(text), "PICTURE"))
		if strings.Contains(f.Name(), "plater") || strings.Contains(f.Name(), "maker") {
			if strings.Contains(string(text), "Varley") {
				t.Errorf("%s names the owner", f.Name())
			}
		}
		if f.Name() == "quote.html" {
			for _, name := range []string{"pell", "brackwater", "Pell", "Brackwater", "tinshed", "Tin Shed", "lathbury",
				"Lathbury", "aldous", "Aldous"} {
				if strings.Contains(string(text), name) {
					t.Errorf("the quote names %q", name)
				}
			}
		}
	}
}

// TestPagesTogether compares the sheets of what three jobs share with testdata/golden.
func TestPagesTogether(t *testing.T) {
	dir := t.TempDir()
	if code, _, errs := brightset("orders", "testdata/together/solo.toml", "testdata/together/outfit.toml",
		"testdata/together/racer.toml", "--out", dir, "--unfitted", "the machines are away"); code != 0 {
		t.Fatal(code, errs)
	}
	for _, name := range []string{"plater-kell", "buy", "jobs", "statement-1"} {
		text, err := os.ReadFile(filepath.Join(dir, name+".html"))
		if err != nil {
			t.Fatal(err)
		}
		sameAsGolden(t, "page-together-"+name, string(text))
	}
}

func TestOrdersHeldBack(t *testing.T) {
	dir := t.TempDir()
	code, out, _ := brightset("orders", "testdata/demo", "--out", dir)
	if code != 0 || !strings.Contains(strings.Join(strings.Fields(out), " "),
		"Held back, on no order: drawer-grille, drawer-arm, bullet-1, bullet-2.") {
		t.Errorf("%d %s", code, out)
	}
	bench, err := os.ReadFile(filepath.Join(dir, "bench.html"))
	for _, want := range []string{"has to match right bumper bullet, which waits", "39.49 more than planned", "408.75"} {
		if !strings.Contains(string(bench), want) {
			t.Errorf("the shop's own list does not say %q (%v)", want, err)
		}
	}
	if other, err := os.ReadFile(filepath.Join(dir, "plater-brackwater.html")); err != nil ||
		strings.Contains(string(other), "bullet-1") || strings.Contains(string(other), "408.75") ||
		!strings.Contains(string(other), "177.33") {
		t.Errorf("a piece that waits for its mate or what we would pay at most is on an order (%v)", err)
	}
	order, err := os.ReadFile(filepath.Join(dir, "plater-pell.html"))
	if err != nil || strings.Contains(string(order), "grille") || !strings.Contains(string(order), "lower post gone") {
		t.Error("a piece that was not tried on is on an order, or one that was is not", err)
	}
}

// hostileJob has names that would do harm where they are not escaped.
const hostileJob = `[job]
title = "%s"
start = 2031-01-01
target = "nice"
[quote]
for = "<script>alert(1)</script>"
[slot.a]
name = "<i>gnitsed</i> <b>bold</b>"
area = "1 dm2"
[plater.p]
name = "</style><script>alert(2)</script>"
freight = "10.00"
[plater.p.level.show]
rate = {other = "10.00"}
grade = {other = 90}
[piece.x]
name = "%s"
fits = ["a"]
kind = "original"
metal = "brass"
fitted = true
protect = "javascript:alert(3)"
marks = "{{.}} \u0022 onload=\u0022x"
photos = ["../../../etc/passwd", "nowhere.jpg"]
[piece.x.finding.f]
defect = "pits"
`

// TestHostileNames: no name of a hostile job does harm on a page of paper.
func TestHostileNames(t *testing.T) {
	dir := hostilePages(t)
	files, _ := os.ReadDir(dir)
	for _, f := range files {
		text, _ := os.ReadFile(filepath.Join(dir, f.Name()))
		for _, bad := range []string{"<script", "<img src=x", "</style><", "passwd", `" onload`} {
			if strings.Contains(string(text), bad) {
				t.Errorf("%s holds %q", f.Name(), bad)
			}
		}
		_, style, _ := strings.Cut(string(text), "<style>")
		style, _, _ = strings.Cut(style, "</style>")
		own := 1
		if strings.Contains(style, "size: 105mm") { // a card
			own = 2
		}
		if strings.Count(style, "@page") != own || strings.Contains(style, "url(") {
			t.Errorf("%s: a name has become part of the style", f.Name())
		}
	}
	if len(files) < 5 {
		t.Errorf("%d pages", len(files))
	}
}

// hostilePages writes the orders and the report of a hostile job to a folder.
func hostilePages(t *testing.T) string {
	t.Helper()
	dir, job := filepath.Join(t.TempDir(), "h"), filepath.Join(t.TempDir(), "job.toml")
	title := "<img src=x onerror=alert(4)> } @page { content: url(http://x) } " + strings.Repeat("long", 60)
	if err := os.WriteFile(job, fmt.Appendf(nil, hostileJob, title, strings.Repeat("name ", 60)), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := brightset("orders", job, "--out", dir); code != 0 {
		t.Fatal(code, errs)
	}
	if code, _, errs := brightset("report", job, "--out", filepath.Join(dir, "report.html")); code != 0 {
		t.Fatal(code, errs)
	}
	return dir
}

// TestPagesInBrowser opens pages in a real browser and prints them: every page of paper
// is numbered, heads are repeated, nothing is cut off, and no name does harm.
func TestPagesInBrowser(t *testing.T) {
	needBrowser(t)
	dir := t.TempDir()
	if code, _, errs := brightset("orders", "testdata/demo", "--out", dir, "--unfitted", "x"); code != 0 {
		t.Fatal(code, errs)
	}
	pages := printed(t, filepath.Join(dir, "quote.html"))
	for i, text := range pages {
		if !strings.Contains(text, fmt.Sprintf("page %d of %d", i+1, len(pages))) ||
			!strings.Contains(text, "Quillmere Dunlin coupe") {
			t.Errorf("page %d has no foot:\n%s", i+1, text)
		}
	}
	card := printed(t, filepath.Join(dir, "hunt.html"))
	if len(card) < 2 || !strings.Contains(card[0], "pay at most") || !strings.Contains(card[1], "pay at most") {
		t.Error("the head of the table is not repeated on the second page")
	}
	for _, want := range []string{"hood crest", "escutcheon screws", "in all", "when the set hangs", "Not part of it",
		"for the shop, date"} {
		if !strings.Contains(strings.Join(pages, ""), want) {
			t.Errorf("%q is cut off", want)
		}
	}

	quote := filepath.Join(hostilePages(t), "quote.html")
	out, err := exec.Command("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--dump-dom",
		"file://"+quote).Output()
	if err != nil || strings.Contains(string(out), "<script") || !strings.Contains(string(out), "&lt;script&gt;alert(1)") {
		t.Errorf("in the browser: %v\n%s", err, out)
	}
	if pages := printed(t, quote); !strings.Contains(pages[0], "page 1 of") {
		t.Error("the foot of a page with a hostile title is gone")
	}
}

// printed prints a page as PDF and gives the text of every page of paper.
func printed(t *testing.T, path string) []string {
	t.Helper()
	pdf := path + ".pdf"
	out, err := exec.Command("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
		"--print-to-pdf="+pdf, "file://"+path).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	text, err := exec.Command("pdftotext", "-layout", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimSuffix(string(text), "\f"), "\f")
	if len(pages) == 0 {
		t.Fatal("nothing was printed")
	}
	return pages
}
