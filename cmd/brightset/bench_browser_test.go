package main

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"brightset/testdata/campaign"
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
	link string // the path of the link that lets in
	cmd  *exec.Cmd
	ctx  context.Context
}

// needBrowser leaves a test out where there is no browser, and has it run beside others that wait
// for one.
func needBrowser(t *testing.T) {
	t.Helper()
	if !campaign.Long() {
		t.Skip("drives a browser; with BRIGHTSET_LONG=1 it is run")
	}
	for _, program := range []string{"chromium", "pdftotext"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("%s is not there; .ci/run installs it", program)
		}
	}
	t.Parallel()
}

// newBench starts the program and the browser on a job.
func newBench(t *testing.T, job string, more ...chromedp.ExecAllocatorOption) *bencher {
	t.Helper()
	b := &bencher{t: t, bin: build(t), job: job, port: "0"}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.ExecPath("chromium"))
	opts = append(opts, more...)
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
	b.port, rest, _ = strings.Cut(rest, "/")
	b.link, _, _ = strings.Cut(rest, " ")
	b.do(chromedp.Navigate(b.url("/"+b.link)), chromedp.WaitVisible(chromedp.ID("main")))
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
	main := eval[string](b, `(document.querySelector("main") || {innerText: ""}).innerText`)
	return strings.Join(strings.Fields(main), " ")
}

// finder is a script that finds what somebody would press: by the words on it, within
// the row of a piece where one is named. What is for readers of the screen alone may follow.
const finder = `(card, words, kind) => {
	const root = card
		? [...document.querySelectorAll("details.card")].find(a => a.dataset.name.includes(card))
		: document.body;
	if (!root) return null;
	const clean = e => { const c = e.cloneNode(true); c.querySelectorAll(".hide").forEach(h => h.remove());
		return c.textContent.replace(/\s+/g, " ").trim(); };
	for (const e of root.querySelectorAll(kind))
		if (e.checkVisibility() && (clean(e) === words || kind === "summary" && clean(e).startsWith(words))) return e;
	return null;
}`

// unfold opens a section of a page, or of the row of a piece, unless it is open: that stays so.
func (b *bencher) unfold(card, words string) {
	b.t.Helper()
	if card != "" {
		open := eval[bool](b, fmt.Sprintf(`[...document.querySelectorAll("details.card")].find(a => `+
			`a.dataset.name.includes(%q)).open`, card))
		if !open {
			name := eval[string](b, fmt.Sprintf(`[...document.querySelectorAll("details.card")].find(a => `+
				`a.dataset.name.includes(%q)).dataset.name`, card))
			b.press(card, "summary", name)
		}
	}
	if !eval[bool](b, fmt.Sprintf(`(() => { const e = (%s)(%q, %q, "summary"); return !!e && e.parentElement.open; })()`,
		finder, card, words)) {
		b.press(card, "summary", words)
	}
}

// turned is a script that tells one state of the page from the next: a page takes the place of the
// one before without being loaded. "" until its plan is there.
const turned = `document.readyState !== "complete" || document.body.dataset.pending ? "" : ` +
	`String(performance.timeOrigin) + " " + (document.body.dataset.turn || "")`

// press moves the mouse to what has these words on it and clicks.
func (b *bencher) press(card, kind, words string) {
	b.t.Helper()
	b.mark(card, kind, words)
	b.do(chromedp.Click(chromedp.CSS("[data-press]")))
}

// mark marks what has these words on it, in the middle of the screen.
func (b *bencher) mark(card, kind, words string) {
	b.t.Helper()
	b.wait(turned + ` !== ""`) // what is under the mouse stays there
	ok := eval[bool](b, fmt.Sprintf(`(() => { const e = (%s)(%q, %q, %q); if (!e) return false; `+
		`document.querySelectorAll("[data-press]").forEach(x => x.removeAttribute("data-press")); e.dataset.press = "1"; `+
		`e.scrollIntoView({block: "center"}); return true; })()`, finder, card, words, kind))
	if !ok {
		b.t.Fatalf("nothing to press: %s %q in %q; the page says:\n%s", kind, words, card, b.text())
	}
}

// send presses a button that sends a form, and waits for the page that follows.
func (b *bencher) send(card, words string) {
	b.t.Helper()
	was := eval[string](b, turned)
	b.press(card, "button", words)
	b.next(was)
}

func (b *bencher) next(was string) {
	b.t.Helper()
	for range 200 {
		now, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](turned))
		if err == nil && now != "" && now != was {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	b.t.Fatal("no page followed")
}

// wait fails where something does not come true.
func (b *bencher) wait(script string) {
	b.t.Helper()
	for range 400 {
		if ok, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](script)); err == nil && ok {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	b.t.Fatalf("never true: %s\n%s", script, b.text())
}

// says fails where the main part of the page does not come to hold a text.
func (b *bencher) says(want string) {
	b.t.Helper()
	for range 400 {
		if strings.Contains(b.text(), want) {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	b.t.Fatalf("the page does not say %q:\n%s", want, b.text())
}
