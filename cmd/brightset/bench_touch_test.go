package main

import (
	"fmt"
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

func (b *bencher) write(id, text string) {
	b.t.Helper()
	b.do(chromedp.SendKeys(chromedp.ID(id), text))
}

// TestBenchPressedTwice: a button that is pressed three times sends its form once.
func TestBenchPressedTwice(t *testing.T) {
	needBrowser(t)
	b := newBench(t, emptyJob(t))
	b.open("/new?slot=cleat")
	b.press("", ".keys span", "brass")
	was := eval[string](b, turned)
	b.mark("", "button", "Add it")
	eval[bool](b, `(() => { const e = document.querySelector("[data-press]"); for (let i = 0; i < 3; i++) e.click(); `+
		`return true; })()`)
	b.next(was)
	b.says("piece-1")
	_, out, _ := brightset("record", "list", b.job)
	if n := strings.Count(out, "new piece-"); n != 1 {
		t.Errorf("pressed three times it is recorded %d times:\n%s", n, out)
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
