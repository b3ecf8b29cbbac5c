package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// tap touches what has these words on it, as press clicks it.
func (b *bencher) tap(card, kind, words string) {
	b.t.Helper()
	b.mark(card, kind, words)
	b.do(chromedp.Tap(chromedp.CSS("[data-press]")))
}

// tapOn taps a button that sends a form, and waits for what follows.
func (b *bencher) tapOn(card, words string) {
	b.t.Helper()
	was := eval[string](b, turned)
	b.tap(card, "button", words)
	b.next(was)
}

func (b *bencher) write(id, text string) {
	b.t.Helper()
	b.do(chromedp.SendKeys(chromedp.ID(id), text))
}

// TestBenchFromNothingByTouch: from an empty folder to printed orders without a text editor, on a
// screen 360 px wide that is touched, with the program killed in the middle and a form sent twice.
func TestBenchFromNothingByTouch(t *testing.T) {
	needBrowser(t)
	b := newBench(t, filepath.Join(t.TempDir(), "boat", "job.toml"))
	b.do(chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch))
	b.open("/")
	b.write("title", "Launch Marigold")
	b.write("positions", "stem band, 4.5 dm2")
	b.tap("", "button", "Start")
	b.says("stem band")
	b.open("/shop")
	b.tap("", "summary", "Add a plater")
	b.write("name", "Weir Plating")
	b.write("freight", "20.00")
	b.write("level-new", "show")
	b.do(chromedp.SetValue(chromedp.ID("metal-new"), "brass"))
	b.write("rate-new", "30.00")
	b.write("grade-new", "90")
	b.tapOn("", "Add him")
	b.says("Weir Plating")
	b.open("/new?slot=stem-band")
	b.write("name", "band off the boat")
	b.tap("", ".keys span", "brass")
	b.tapOn("", "Add it")
	b.kill()
	b.start()
	b.do(chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch))
	b.open("/?slot=stem-band")
	b.tap("band off", "summary .who b", "band off the boat (piece-1)")
	b.tap("band off", "summary", "Found something")
	b.tap("band off", ".faults b", "pits")
	b.tapOn("band off", "Add the finding")
	b.says("pits, moderate")
	b.says("Weir, show finish")
	if !eval[bool](b, `document.querySelector(".did").contains(document.activeElement) && `+
		`document.querySelector(".card").open && document.querySelector("[data-open^=found]").open`) {
		t.Error("after an act the page doesn't stay as it was, or doesn't lead to Undo")
	}
	b.tapOn("", "Undo this")
	b.says("Nothing noted")
	b.tapOn("", "Bring it back")
	b.says("pits, moderate")
	b.open("/?slot=stem-band")
	b.tapOn("", "Tried on: it fits here")
	b.open("/papers")
	b.says("Weir Plating")
	b.open("/lots")
	was := eval[string](b, turned)
	b.mark("", "button", "They went to Weir Plating together")
	eval[bool](b, `(() => { const e = document.querySelector("[data-press]"); for (let i = 0; i < 3; i++) e.click(); `+
		`return true; })()`)
	b.next(was)
	b.says("lot weir-plating-1")
	_, out, _ := brightset("record", "list", b.job)
	if n := strings.Count(out, "sent "); n != 1 {
		t.Errorf("pressed three times it is recorded %d times:\n%s", n, out)
	}
	if wide := eval[int](b, `document.documentElement.scrollWidth`); wide > 360 {
		t.Errorf("the page is %d px wide", wide)
	}
}

// TestBenchTwoPeople: two people at one job see each other's acts, and what both do at once to different
// pieces is all recorded.
func TestBenchTwoPeople(t *testing.T) {
	needBrowser(t)
	one := newBench(t, emptyJob(t))
	for range 2 {
		one.open("/new?slot=cleat")
		one.press("", ".keys span", "brass")
		one.send("", "Add it")
	}
	other := &bencher{t: t, job: one.job, port: one.port, link: one.link}
	ctx, end := chromedp.NewContext(one.ctx)
	t.Cleanup(end)
	other.ctx = ctx
	other.do(chromedp.Navigate(other.url("/" + other.link)))
	for _, b := range []*bencher{one, other} {
		b.open("/?slot=cleat")
	}
	var wait sync.WaitGroup
	for i, b := range []*bencher{one, other} {
		piece := fmt.Sprintf("piece-%d", i+1)
		b.unfold(piece, "Grade it by eye")
		b.press(piece, ".keys span", "fine")
		wait.Go(func() { b.send(piece, "Keep the grade") })
	}
	wait.Wait()
	_, out, _ := brightset("record", "list", one.job)
	if n := strings.Count(out, "graded "); n != 2 {
		t.Errorf("of two acts at once %d are recorded:\n%s", n, out)
	}
}
