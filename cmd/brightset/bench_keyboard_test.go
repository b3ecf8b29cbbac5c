package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// tabTo moves the focus with the Tab key until it is on what has these words, or on an
// input in the label that has them.
func (b *bencher) tabTo(words string) {
	b.t.Helper()
	for range 400 {
		b.do(chromedp.KeyEvent(kb.Tab))
		at := eval[string](b, `(() => { const e = document.activeElement; const l = e.closest("label"); return ((l || `+
			`e).innerText || e.getAttribute("aria-label") || "").replace(/\s+/g, " ").trim(); })()`)
		if at == words || strings.HasPrefix(at, words+" ") || strings.HasPrefix(at, words+":") {
			return
		}
	}
	b.t.Fatalf("the Tab key does not reach %q", words)
}

// TestBenchByKeyboard adds a piece, a finding and a decision with nothing but the keys.
func TestBenchByKeyboard(t *testing.T) {
	needBrowser(t)
	b := newBench(t, emptyJob(t))
	b.open("/?slot=lamp")
	key := func(k string) { b.t.Helper(); b.do(chromedp.KeyEvent(k)) }
	send := func(words string) {
		b.t.Helper()
		was := eval[string](b, turned)
		b.tabTo(words)
		key(kb.Enter)
		b.next(was)
	}
	send("Add a piece")
	b.tabTo("original") // the group of kinds
	key(kb.Tab)         // the group of metals: its first
	key(kb.ArrowDown)
	key(kb.ArrowUp)
	send("Add it")
	b.says("piece-1")
	b.tabTo("piece-1")
	key(kb.Enter) // its row opens
	b.tabTo("Found something")
	key(kb.Enter)
	key(kb.Tab)
	key(" ")
	send("Add the finding")
	b.says("nickel showing, moderate")
	b.tabTo("Decide")
	key(kb.Enter)
	send("Use this one here")
	b.says("lock")
	was := eval[string](b, turned)
	b.tabTo("Undo")
	key(" ")
	b.next(was)
	if strings.Contains(b.text(), "lock for lamp") {
		t.Error("the lock is still there")
	}
	key(kb.Tab)
	key(kb.Tab)
	if !eval[bool](b, `getComputedStyle(document.activeElement).outlineStyle !== "none" && document.activeElement !== `+
		`document.body`) {
		t.Error("the focus can't be seen")
	}
}

// TestBenchWhatIf moves the sliders on the demo.
func TestBenchWhatIf(t *testing.T) {
	needBrowser(t)
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	b := newBench(t, filepath.Join(dir, "job.toml"))
	b.open("/what-if")
	slide := `((id, v) => { const e = document.getElementById(id); e.value = v; e.dispatchEvent(new Event("input", ` +
		`{bubbles: true})); return true; })`
	still := `!document.getElementById("answer").hasAttribute("aria-busy")`
	eval[bool](b, slide+`("mean", "90")`)
	b.wait(still)
	b.says("mean 85.7 to 90.1")
	b.wait(`document.getElementById("means").dataset.whole === "1"`)
	if n := eval[int](b, `[...document.querySelectorAll("[data-mean]")].filter(e => /known/.test(e.innerText))`+
		`.length`); n > 0 {
		t.Error(n, "means are not known")
	}
	eval[bool](b, slide+`("mean", "85.5")`)
	b.wait(still)
	b.says("nothing changes")
	eval[bool](b, slide+`("budget", "1380")`)
	b.wait(still)
	b.says("nothing changes")
	eval[bool](b, slide+`("budget", "900")`)
	b.wait(still + ` && ` +
		`document.querySelector(".line").innerText.includes("nothing meets that")`)
	b.says("below 1")
	b.says("nothing fits.")
	b.wait(`document.querySelector(".part table") !== null`)
	b.says("do-least")
	got := eval[string](b, `document.querySelector("main").innerText.includes("best finish") ? "yes" : "no"`)
	if got != "yes" {
		t.Error("the best finish is not beside it")
	}
	if problems := eval[int](b, `document.querySelectorAll("[style]").length`); problems > 0 {
		t.Error("style in the page")
	}
}
