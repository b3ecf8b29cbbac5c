package main

import (
	"archive/tar"
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha512"
	"encoding/base64"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// emptyBench is a job with slots and platers, and nothing on the bench yet.
const emptyBench = `[job]
title = "Tern Lane skiff, bright trim"
shop = "shop.toml"
target = "nice"
budget = "900.00"
start = 2030-11-01
service = "moderate"
[slot.cleat]
name = "bow cleat"
area = "1.5 dm2"
[slot.lamp]
name = "stern lamp rim"
area = "0.8 dm2"
`

const emptyShop = `[shop]
hourly = "50.00"
[quote]
tax = 0.05
[plater.north]
name = "North Yard Plating"
days = 20
freight = "15.00"
strip_fee = "10.00"
[plater.north.level.fine]
rate = {other = "40.00"}
grade = {other = 88}
`

// bencher is the program serving a job, and a browser that looks at it.
type bencher struct {
	t    *testing.T
	bin  string
	job  string
	port string
	cmd  *exec.Cmd
	ctx  context.Context
}

func needBrowser(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("drives a browser")
	}
	if _, err := exec.LookPath("chromium"); err != nil {
		t.Skip("chromium is not there; .ci/run installs it")
	}
}

// newBench starts the program and the browser on a job.
func newBench(t *testing.T, job string) *bencher {
	t.Helper()
	b := &bencher{t: t, bin: build(t), job: job, port: "0"}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.ExecPath("chromium"))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, cancel := chromedp.NewContext(alloc)
	var end context.CancelFunc
	b.ctx, end = context.WithTimeout(ctx, 3*time.Minute)
	t.Cleanup(func() { end(); cancel(); stop(); b.kill() })
	b.start()
	return b
}

// start serves at the port it had before, if it had one.
func (b *bencher) start() {
	b.t.Helper()
	b.cmd = exec.Command(b.bin, "bench", b.job, "--port", b.port)
	out, err := b.cmd.StdoutPipe()
	if err != nil {
		b.t.Fatal(err)
	}
	b.cmd.Stderr = os.Stderr
	if err := b.cmd.Start(); err != nil {
		b.t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		b.t.Fatal(err)
	}
	_, rest, _ := strings.Cut(line, "127.0.0.1:")
	b.port, _, _ = strings.Cut(rest, "/")
}

// kill ends the program as a power cut would.
func (b *bencher) kill() {
	if b.cmd != nil {
		b.cmd.Process.Kill()
		b.cmd.Wait()
		b.cmd = nil
	}
}

func (b *bencher) url(path string) string { return "http://127.0.0.1:" + b.port + path }

func (b *bencher) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

func (b *bencher) open(path string) {
	b.t.Helper()
	b.do(chromedp.Navigate(b.url(path)), chromedp.WaitVisible(chromedp.ID("main")))
}

func eval[T any](b *bencher, script string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](script))
	if err != nil {
		b.t.Fatalf("%v in %s", err, script)
	}
	return v
}

// text is what stands in the main part of the page.
func (b *bencher) text() string {
	return strings.Join(strings.Fields(eval[string](b, `document.querySelector("main").innerText`)), " ")
}

// finder is a script that finds what somebody would press: by the words on it, within
// the card of a piece where one is named.
const finder = `(card, words, kind) => {
	const root = card ? [...document.querySelectorAll("article.card")].find(a => a.getAttribute("aria-label").includes(card)) : document.querySelector("main");
	if (!root) return null;
	const clean = e => e.innerText.replace(/\s+/g, " ").trim();
	for (const e of root.querySelectorAll(kind)) if (clean(e) === words) return e;
	return null;
}`

// press moves the mouse to what has these words on it and clicks.
func (b *bencher) press(card, kind, words string) {
	b.t.Helper()
	ok := eval[bool](b, fmt.Sprintf(`(() => { const e = (%s)(%q, %q, %q); if (!e) return false; document.querySelectorAll("[data-press]").forEach(x => x.removeAttribute("data-press")); e.dataset.press = "1"; e.scrollIntoView({block: "center"}); return true; })()`, finder, card, words, kind))
	if !ok {
		b.t.Fatalf("nothing to press: %s %q in %q; the page says:\n%s", kind, words, card, b.text())
	}
	b.do(chromedp.Click(chromedp.CSS("[data-press]")))
}

// send presses a button that sends a form, and waits for the page that follows.
func (b *bencher) send(card, words string) {
	b.t.Helper()
	was := eval[string](b, `String(performance.timeOrigin)`)
	b.press(card, "button", words)
	b.next(was)
}

func (b *bencher) next(was string) {
	b.t.Helper()
	for range 200 {
		now, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](`document.readyState === "complete" ? String(performance.timeOrigin) : ""`))
		if err == nil && now != "" && now != was {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	b.t.Fatal("no page followed")
}

// says fails where the main part of the page does not hold a text.
func (b *bencher) says(want string) {
	b.t.Helper()
	if !strings.Contains(b.text(), want) {
		b.t.Fatalf("the page does not say %q:\n%s", want, b.text())
	}
}

// TestBenchByMouse does a whole job from an empty bench to printed orders, with the
// program killed and started again in the middle.
func TestBenchByMouse(t *testing.T) {
	needBrowser(t)
	b := newBench(t, emptyJob(t))
	b.open("/?slot=cleat")
	for _, slot := range []string{"cleat", "lamp"} {
		b.open("/new?slot=" + slot)
		b.press("", ".keys span", "brass")
		b.send("", "Add it")
	}
	b.open("/?slot=cleat")
	b.press("piece-1", "summary", "Found something")
	b.press("piece-1", ".keys span", "scratches")
	b.press("piece-1", ".keys span", "severe")
	b.press("piece-1", ".step button", "+")
	b.press("piece-1", ".step button", "+")
	b.send("piece-1", "Add the finding")
	b.says("scratches, severe, over 5.0% of the face")
	b.press("piece-1", "summary", "Take a photo")
	b.do(chromedp.SetUploadFiles(chromedp.CSS("input[type=file]"), []string{absolute(t, "testdata/demo/crest-2.jpg")}))
	b.send("piece-1", "Keep the photo")
	if !eval[bool](b, `document.querySelector("article.card img").naturalWidth > 100`) {
		t.Error("the photo does not show")
	}
	b.open("/?slot=lamp")
	b.press("piece-2", "summary", "Grade it by eye")
	b.press("piece-2", ".keys span", "fine")
	b.send("piece-2", "Keep the grade")
	b.says("82, fine")

	b.open("/?slot=cleat")
	b.press("piece-1", "summary", "Decide")
	b.press("piece-1", ".keys span", "it belongs to the object")
	b.send("piece-1", "Use this one here")
	b.says("costs nothing today")

	b.kill() // with the page open
	b.start()
	b.open("/?slot=cleat")
	b.says("scratches, severe")
	b.press("piece-1", "summary", "What happened")
	b.send("piece-1", "Tried on: it fits")
	b.open("/papers")
	b.says("Work order for North Yard Plating (north)")
	b.open("/paper/plater-north")
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	if err != nil || !bytes.HasPrefix(pdf, []byte("%PDF")) {
		t.Fatal(err)
	}
	if text := pdfText(t, pdf); !strings.Contains(text, "bow cleat") || !strings.Contains(text, "page 1 of") || !strings.Contains(text, "scratches, severe") {
		t.Errorf("the printed order says\n%s", text)
	}

	b.open("/?slot=cleat")
	b.press("piece-1", "summary", "What happened")
	b.press("piece-1", ".keys span", eval[string](b, `[...document.querySelectorAll("input[name=to-level]")][0].nextElementSibling.innerText.trim()`))
	b.press("piece-1", ".tick span", "he is to strip it and name his price first")
	b.send("piece-1", "It was sent")
	b.says("at north")
	b.press("piece-1", "summary", "What happened")
	b.send("piece-1", "The plating is off")
	b.press("piece-1", "summary", "What happened")
	b.do(chromedp.SendKeys(chromedp.CSS("input[id^=priced]"), "72.00"))
	b.send("piece-1", "Keep the price")
	b.says("priced, at north")
	b.press("piece-1", "summary", "What happened")
	b.send("piece-1", "Told to go ahead")
	b.press("piece-1", "summary", "What happened")
	b.press("piece-1", ".deeds .keys span", "show")
	b.send("piece-1", "It came back")
	b.says("90, show")
	b.press("piece-1", "summary", "What happened")
	b.send("piece-1", "It hangs here")
	b.says("hung in cleat")
	b.open("/journal")
	b.says("hung piece-1")
	if code, out, errs := brightset("check", b.job); code != 0 {
		t.Error(code, out, errs)
	}
	if _, out, _ := brightset("record", "list", b.job); !strings.Contains(strings.Join(strings.Fields(out), " "), "Spent so far: 87.00") {
		t.Errorf("freight of 15.00 and 72.00 of work: %s", out)
	}
}

func emptyJob(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"job.toml": emptyBench, "shop.toml": emptyShop} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(dir, "job.toml")
}

func absolute(t *testing.T, path string) string {
	t.Helper()
	full, err := filepath.Abs(path)
	if err != nil {
		t.Fatal(err)
	}
	return full
}

func pdfText(t *testing.T, pdf []byte) string {
	t.Helper()
	cmd := exec.Command("pdftotext", "-layout", "-", "-")
	cmd.Stdin = bytes.NewReader(pdf)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// tabTo moves the focus with the Tab key until it is on what has these words, or on an
// input in the label that has them.
func (b *bencher) tabTo(words string) {
	b.t.Helper()
	for range 400 {
		b.do(chromedp.KeyEvent(kb.Tab))
		at := eval[string](b, `(() => { const e = document.activeElement; const l = e.closest("label"); return ((l || e).innerText || e.getAttribute("aria-label") || "").replace(/\s+/g, " ").trim(); })()`)
		if at == words {
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
		was := eval[string](b, `String(performance.timeOrigin)`)
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
	was := eval[string](b, `String(performance.timeOrigin)`)
	b.tabTo("Undo")
	key(" ")
	b.next(was)
	if strings.Contains(b.text(), "lock for lamp") {
		t.Error("the lock is still there")
	}
	key(kb.Tab)
	key(kb.Tab)
	if !eval[bool](b, `getComputedStyle(document.activeElement).outlineStyle !== "none" && document.activeElement !== document.body`) {
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
	wait := func(script string) {
		b.t.Helper()
		for range 400 {
			if eval[bool](b, script) {
				return
			}
			time.Sleep(25 * time.Millisecond)
		}
		b.t.Fatalf("never true: %s\n%s", script, b.text())
	}
	wait(`document.getElementById("what-if").dataset.ready === "1"`)
	slide := `((id, v) => { const e = document.getElementById(id); e.value = v; e.dispatchEvent(new Event("input", {bubbles: true})); return true; })`
	asked := eval[int](b, `performance.getEntriesByType("resource").length`)
	eval[bool](b, slide+`("mean", "90")`)
	b.says("mean 85.7 to 90.1")
	if n := eval[int](b, `performance.getEntriesByType("resource").length`); n != asked {
		t.Error("the slider of the mean asks the server")
	}
	eval[bool](b, slide+`("mean", "75")`)
	eval[bool](b, slide+`("budget", "1380")`)
	wait(`!document.getElementById("answer").hasAttribute("aria-busy")`)
	b.says("nothing changes")
	eval[bool](b, slide+`("budget", "900")`)
	wait(`!document.getElementById("answer").hasAttribute("aria-busy") && document.querySelector(".line").innerText.includes("nothing meets that")`)
	wait(`document.querySelector(".part table") !== null`)
	b.says("do-least")
	if got := eval[string](b, `document.querySelector("main").innerText.includes("best finish") ? "yes" : "no"`); got != "yes" {
		t.Error("the best finish is not beside it")
	}
	if problems := eval[int](b, `document.querySelectorAll("[style]").length`); problems > 0 {
		t.Error("style in the page")
	}
}

// axe is the accessibility checker that the tests use: axe-core of the npm registry.
const (
	axeURL = "https://registry.npmjs.org/axe-core/-/axe-core-4.14.1.tgz"
	axeSum = "FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ=="
)

// TestBenchAccessible lets axe-core look at every page, at three widths.
func TestBenchAccessible(t *testing.T) {
	needBrowser(t)
	script := axe(t)
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	b := newBench(t, filepath.Join(dir, "job.toml"))
	for _, width := range []int64{360, 768, 1280} {
		for _, path := range []string{"/?slot=crest", "/plan", "/what-if", "/papers", "/journal", "/new"} {
			b.do(chromedp.EmulateViewport(width, 900))
			b.open(path)
			eval[bool](b, `document.querySelectorAll("details").forEach(d => d.open = true), true`)
			eval[chromedp.Void](b, script+"; void 0")
			eval[bool](b, `window.__axe = null, axe.run().then(r => { window.__axe = r.violations.map(v => v.id + ": " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120)).join(" | ")).join("\n"); }), true`)
			for range 400 {
				if eval[bool](b, `window.__axe !== null`) {
					break
				}
				time.Sleep(25 * time.Millisecond)
			}
			if found := eval[string](b, `window.__axe === null ? "no answer" : window.__axe`); found != "" {
				t.Errorf("%s at %d px:\n%s", path, width, found)
			}
			if eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`) > 0 {
				t.Errorf("%s at %d px is wider than the screen", path, width)
			}
			small := eval[string](b, `[...document.querySelectorAll("button, summary, a.button, .keys span, nav a")].filter(e => e.offsetParent && e.getBoundingClientRect().height < 48).map(e => e.innerText.trim()).slice(0, 5).join(", ")`)
			if small != "" {
				t.Errorf("%s at %d px: too small to hit: %s", path, width, small)
			}
		}
	}
}

// axe fetches the checker; where there is no network there is no such test.
func axe(t *testing.T) string {
	t.Helper()
	client := &http.Client{Timeout: 30 * time.Second}
	r, err := client.Get(axeURL)
	if err != nil {
		t.Skip("no network:", err)
	}
	defer r.Body.Close()
	data, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != 200 {
		t.Skip("no answer from the registry:", r.Status, err)
	}
	if sum := sha512.Sum512(data); base64.StdEncoding.EncodeToString(sum[:]) != axeSum {
		t.Fatal("the registry gave something else")
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
