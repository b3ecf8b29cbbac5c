package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// TestBenchAccessible looks at every page at three widths: by the rules of
// accessibleRules, and by axe-core where npm has it.
func TestBenchAccessible(t *testing.T) {
	needBrowser(t)
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	b := newBench(t, filepath.Join(dir, "job.toml"))
	checker := axe(t)
	for _, width := range []int64{360, 768, 1280} {
		for _, path := range []string{"/", "/?slot=crest", "/lots", "/plan", "/what-if", "/shop", "/papers",
			"/journal", "/new", "/position", "/learn", "/hunt", "/risk", "/photos?slot=crest"} {
			b.do(chromedp.EmulateViewport(width, 900))
			b.open(path)
			if n := eval[int](b, tabStops); path == "/?slot=crest" && n > 15 {
				t.Errorf("%d tab stops to the first act at %d px", n, width)
			}
			eval[bool](b, `document.querySelectorAll("details").forEach(d => d.open = true), true`)
			if found := eval[string](b, accessibleRules); found != "" {
				t.Errorf("%s at %d px:\n%s", path, width, found)
			}
			if checker != "" {
				b.axe(checker, path, width)
			}
		}
	}
}

// tabStops is a script that counts how often the Tab key is pressed from the top of a page to the first
// act of its main part.
const tabStops = `(() => {
	let n = 0;
	for (const e of document.querySelectorAll("a[href], button, summary, input, select, textarea, [tabindex='0']")) {
		if (e.type === "hidden" || e.disabled || !e.checkVisibility()) continue;
		n++;
		if (e.closest("main form")) break;
	}
	return n;
})()`

// TestBenchRulesFind: every rule of accessibleRules finds what it is there to find.
func TestBenchRulesFind(t *testing.T) {
	needBrowser(t)
	b := newBench(t, emptyJob(t))
	for fault, script := range map[string]string{
		"no language":       `document.documentElement.lang = ""`,
		"no title":          `document.title = ""`,
		"main headings":     `document.querySelectorAll("h1").forEach(e => e.remove())`,
		"main parts":        `document.querySelector("main").setAttribute("role", "none")`,
		"id twice":          `main.insertAdjacentHTML("beforeend", '<p id="x"></p><p id="x"></p>')`,
		"no name":           `main.insertAdjacentHTML("beforeend", '<button></button>')`,
		"no label":          `main.insertAdjacentHTML("beforeend", '<input>')`,
		"no words":          `main.insertAdjacentHTML("beforeend", '<img src="/nothing">')`,
		"level is left out": `main.insertAdjacentHTML("beforeend", '<h2>a</h2><h4>b</h4>')`,
		"points at nothing": `main.insertAdjacentHTML("beforeend", '<p aria-describedby="nowhere">a</p>')`,
		"out of order":      `main.insertAdjacentHTML("beforeend", '<p tabindex="3">a</p>')`,
		"too pale": `{ const e = document.createElement("p"); e.textContent = "pale"; main.append(e); ` +
			`e.style.color = "#aaa"; e.style.background = "#fff"; }`,
		"wider": `{ const e = document.createElement("p"); e.textContent = "wide"; main.append(e); ` +
			`e.style.width = "5000px"; }`,
		"too small": `{ const e = document.createElement("button"); e.textContent = "small"; main.append(e); ` +
			`e.style.minHeight = "0"; e.style.height = "10px"; e.style.padding = "0"; }`,
		"no head in a table": `main.insertAdjacentHTML("beforeend", '<table><tr><td>a</td></tr></table>')`,
	} {
		b.open("/plan")
		eval[bool](b, `(() => { const main = document.querySelector("main"); `+script+`; return true; })()`)
		if found := eval[string](b, accessibleRules); !bytes.Contains([]byte(found), []byte(fault)) {
			t.Errorf("%s is not found; found is %q", fault, found)
		}
	}
}

// axe has axe-core look at the page.
func (b *bencher) axe(checker, path string, width int64) {
	b.t.Helper()
	eval[chromedp.Void](b, checker+"; void 0")
	eval[bool](b, `window.__axe = null, axe.run().then(r => { window.__axe = r.violations.map(v => v.id + ": " + `+
		`v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | ")).join("\n"); }), true`)
	for range 400 {
		if eval[bool](b, `window.__axe !== null`) {
			break
		}
		time.Sleep(25 * time.Millisecond)
	}
	if found := eval[string](b, `window.__axe === null ? "no answer" : window.__axe`); found != "" {
		b.t.Errorf("%s at %d px, by axe-core:\n%s", path, width, found)
	}
}

// The checker, as the npm registry has it.
const (
	axePackage = "axe-core@4.14.1"
	axeSum     = "FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ=="
)

// axe takes the checker out of npm's cache, and nothing from a network: where it isn't in
// the cache our own rules have to do.
func axe(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if out, err := exec.Command("npm", "pack", axePackage, "--offline", "--pack-destination",
		dir).CombinedOutput(); err != nil {
		t.Logf("without axe-core; npm cache add %s puts it where it is looked for: %v\n%s", axePackage, err, out)
		return ""
	}
	list, err := filepath.Glob(filepath.Join(dir, "*.tgz"))
	if err != nil || len(list) != 1 {
		t.Fatal(list, err)
	}
	data, err := os.ReadFile(list[0])
	if err != nil {
		t.Fatal(err)
	}
	if sum := sha512.Sum512(data); base64.StdEncoding.EncodeToString(sum[:]) != axeSum {
		t.Fatal("npm's cache holds something else")
	}
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for files := tar.NewReader(z); ; {
		h, err := files.Next()
		if err != nil {
			t.Fatal(err)
		}
		if h.Name == "package/axe.min.js" {
			text, err := io.ReadAll(files)
			if err != nil {
				t.Fatal(err)
			}
			return string(text)
		}
	}
}
