package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

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
	b.unfold("piece-1", "Found something")
	b.press("piece-1", ".faults b", "scratches")
	b.press("piece-1", ".keys span", "severe")
	b.press("piece-1", ".keys span", "25 %")
	b.send("piece-1", "Add the finding")
	b.says("scratches, severe, over 25% of the face")
	b.unfold("piece-1", "Take a photo")
	b.do(chromedp.SetUploadFiles(chromedp.CSS(".card[open] input[type=file]"),
		[]string{absolute(t, "testdata/demo/crest-2.jpg")}))
	b.send("piece-1", "Keep the photo")
	shows := false
	for range 200 {
		if shows = eval[bool](b, `document.querySelector("details.card .photo").naturalWidth > 100`); shows {
			break
		}
		time.Sleep(25 * time.Millisecond)
	}
	if !shows {
		t.Error("the photo does not show")
	}
	b.open("/?slot=lamp")
	b.unfold("piece-2", "Grade it by eye")
	b.press("piece-2", ".keys span", "fine")
	b.send("piece-2", "Keep the grade")
	b.says("82, fine")

	b.open("/?slot=cleat")
	b.unfold("piece-1", "Decide")
	b.press("piece-1", ".keys span", "it belongs to the object")
	b.send("piece-1", "Use this one here")
	b.says("costs nothing today")

	b.kill() // with the page open
	b.start()
	b.open("/?slot=cleat")
	b.unfold("piece-1", "What happened")
	b.says("scratches, severe")
	b.send("piece-1", "Tried on: it fits here")
	b.open("/papers")
	b.says("Work order for North Yard Plating")
	b.open("/paper/plater-north")
	pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4),
		chromedp.PDFPreferCSSPageSize()))
	if err != nil || !bytes.HasPrefix(pdf, []byte("%PDF")) {
		t.Fatal(err)
	}
	if text := pdfText(t, pdf); !strings.Contains(text, "bow cleat") || !strings.Contains(text, "page 1 of") ||
		!strings.Contains(text, "scratches, severe") {
		t.Errorf("the printed order says\n%s", text)
	}

	b.open("/?slot=cleat")
	b.unfold("piece-1", "What happened")
	b.press("piece-1", ".keys span",
		eval[string](b, `document.querySelector(".card[open] input[name=way][required] + span").innerText.trim()`))
	b.press("piece-1", ".tick span", "he is to strip it and name his price first, though one is firm")
	b.send("piece-1", "It was sent")
	b.says("at North Yard Plating, to be stripped")
	b.unfold("piece-1", "What happened")
	b.send("piece-1", "The plating is off")
	b.unfold("piece-1", "What happened")
	b.do(chromedp.SendKeys(chromedp.CSS("input[id^=priced]"), "72.00"))
	b.send("piece-1", "Keep the price")
	b.says("at North Yard Plating, priced")
	b.unfold("piece-1", "What happened")
	b.send("piece-1", "Told to go ahead")
	b.unfold("piece-1", "What happened")
	b.press("piece-1", ".deeds .keys span", "show")
	b.send("piece-1", "It came back")
	b.says("90, show")
	b.unfold("piece-1", "What happened")
	b.send("piece-1", "It hangs here")
	b.says("hangs as bow cleat")
	b.open("/journal")
	b.says("hung piece-1")
	if code, out, errs := brightset("check", b.job); code != 0 {
		t.Error(code, out, errs)
	}
	if _, out, _ := brightset("record", "list", b.job); !strings.Contains(strings.Join(strings.Fields(out), " "),
		"Spent so far: 87.00") {
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
