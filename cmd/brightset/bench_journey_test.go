package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// hand is how somebody works at the page: with a mouse, by touch, with the keys.
type hand struct {
	press  func(card, kind, words string) // what has these words on it
	write  func(id, text string)          // into a field
	choose func(id, text string)          // out of a list
	screen func()                         // sets up the screen he has, anew after each start
}

// TestBenchFromNothing: from an empty folder to a printed order without a text editor, with a mouse, with the keys
// alone, and by touch on a screen 360 px wide; the program is killed in the middle.
func TestBenchFromNothing(t *testing.T) {
	needBrowser(t)
	for name, of := range map[string]func(*bencher) hand{"mouse": (*bencher).mouse, "keyboard": (*bencher).keyboard,
		"touch": (*bencher).touch} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t, filepath.Join(t.TempDir(), "boat", "job.toml"))
			b.fromNothing(of(b))
			if wide := eval[int](b, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
				t.Errorf("the page is %d px wider than the screen", wide)
			}
		})
	}
}

// fromNothing starts a job and a shop, adds a piece, finds something on it, and prints the order for it, which
// then goes.
func (b *bencher) fromNothing(h hand) {
	b.t.Helper()
	send := func(card, words string) {
		b.t.Helper()
		was := eval[string](b, turned)
		h.press(card, "button", words)
		b.next(was)
	}
	follow := func(words, says string) {
		b.t.Helper()
		h.press("", "a", words)
		b.says(says)
	}
	h.screen()
	b.open("/")
	h.write("title", "Launch Marigold")
	h.write("positions", "stem band, 4.5 dm2")
	h.press("", "button", "Start")
	b.says("stem band")
	follow("Shop", "Who plates")
	h.press("", "summary", "Add a plater")
	h.write("name", "Weir Plating")
	h.write("freight", "20.00")
	h.write("level-new", "show")
	h.choose("metal-new", "brass")
	h.write("rate-new", "30.00")
	h.write("grade-new", "90")
	send("", "Add him")
	b.says("Weir Plating")
	b.open("/?slot=stem-band")
	follow("Add a piece for it", "On its label goes")
	h.write("name", "band off the boat")
	h.press("", ".keys span", "brass")
	send("", "Add it")
	b.kill()
	b.start()
	h.screen()
	b.open("/?slot=stem-band")
	h.press("band off", "summary .who b", "band off the boat (piece-1)")
	h.press("band off", "summary", "Found something")
	h.press("band off", ".faults b", "pits")
	send("band off", "Add the finding")
	b.says("pits, moderate")
	b.says("Weir, show finish")
	if !eval[bool](b, `document.querySelector(".did").contains(document.activeElement) && `+
		`document.querySelector(".card").open && document.querySelector("[data-open^=found]").open`) {
		b.t.Error("after an act the page doesn't stay as it was, or doesn't lead to Undo")
	}
	send("", "Undo this")
	b.says("Nothing noted")
	send("", "Bring it back")
	b.says("pits, moderate")
	send("", "Tried on: it fits here")
	follow("Papers", "Work order for Weir Plating")
	h.press("", "a.button", "Work order for Weir Plating")
	b.wait(`location.pathname === "/paper/plater-weir-plating" && document.readyState === "complete"`)
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4),
		chromedp.PDFPreferCSSPageSize()))
	if err != nil || !bytes.HasPrefix(pdf, []byte("%PDF")) {
		b.t.Fatal(err)
	}
	if text := pdfText(b.t, pdf); !strings.Contains(text, "band off the boat") ||
		!strings.Contains(text, "pits, moderate") {
		b.t.Errorf("the printed order says\n%s", text)
	}
	b.open("/lots")
	send("", "They went to Weir Plating together")
	b.says("lot weir-plating-1")
}

func (b *bencher) mouse() hand {
	return hand{b.press, b.write, b.set, func() { b.do(chromedp.EmulateViewport(1280, 900)) }}
}

func (b *bencher) touch() hand {
	return hand{b.tap, b.write, b.set, func() {
		b.do(chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch))
	}}
}

func (b *bencher) set(id, text string) { b.do(chromedp.SetValue(chromedp.ID(id), text)) }

// keyboard works with nothing but the keys.
func (b *bencher) keyboard() hand {
	typing := func(id, text string) {
		b.t.Helper()
		eval[bool](b, `document.querySelectorAll("[data-press]").forEach(e => e.removeAttribute("data-press")), `+
			`document.getElementById("`+id+`").dataset.press = "1", true`)
		b.reach()
		b.do(chromedp.KeyEvent(text))
	}
	press := func(card, kind, words string) {
		b.t.Helper()
		b.mark(card, kind, words)
		switch b.reach() {
		case "radio", "checkbox":
			b.do(chromedp.KeyEvent(" "))
		case "group":
			for range 60 {
				if b.do(chromedp.KeyEvent(kb.ArrowDown)); eval[bool](b, toReach+` === document.activeElement`) {
					return
				}
			}
			b.t.Fatalf("the arrows don't reach %q", words)
		default:
			b.do(chromedp.KeyEvent(kb.Enter))
		}
	}
	return hand{press, typing, typing, func() { b.do(chromedp.EmulateViewport(1280, 900)) }}
}

// toReach is a script for what the keys have to reach: the field of the label that is marked, or what is pressed
// itself.
const toReach = `(e => (e.closest("label") || e).querySelector("input") || e.closest("summary, button, a") || e)` +
	`(document.querySelector("[data-press]"))`

// reach presses the Tab key until the focus is on what is marked, and says what that is: "group" where it is on
// another of the same radio buttons, of which Tab reaches one alone.
func (b *bencher) reach() string {
	b.t.Helper()
	for range 500 {
		at := eval[string](b, `((e, a) => e === a ? e.type || "other" : e.type === "radio" && a.type === "radio" && `+
			`e.name === a.name && e.form === a.form ? "group" : "")(`+toReach+`, document.activeElement)`)
		if at != "" {
			return at
		}
		b.do(chromedp.KeyEvent(kb.Tab))
	}
	b.t.Fatalf("the Tab key does not reach %s", eval[string](b, toReach+`.outerHTML`))
	return ""
}
