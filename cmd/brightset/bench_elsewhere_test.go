package main

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// sendDeed fills in and sends a form as the bench's own pages do, to any address.
const sendDeed = `(() => {
	const f = document.createElement("form");
	f.method = "post";
	f.action = %q;
	for (const [name, value] of Object.entries({action: "broke", target: "crest-2", base: %q})) {
		const i = document.createElement("input");
		i.name = name; i.value = value;
		f.append(i);
	}
	document.body.append(f);
	f.submit();
	return true;
})()`

// TestBenchFromElsewhere: in a browser that has the bench open, another site's page can
// neither send it an act nor reach it under a name of its own; the bench's own page can.
func TestBenchFromElsewhere(t *testing.T) {
	needBrowser(t)
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	journal := filepath.Join(dir, "job.journal")
	recorded := func() bool { _, err := os.Stat(journal); return err == nil }
	b := newBench(t, filepath.Join(dir, "job.toml"), chromedp.Flag("host-resolver-rules", "MAP rebound.test 127.0.0.1"))
	b.open("/journal")
	base := eval[string](b, `document.querySelector("input[name=base]").value`)

	other := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		fmt.Fprint(w, "<!doctype html><title>elsewhere</title><body>elsewhere</body>")
	}))
	defer other.Close()
	elsewhere := strings.Replace(other.URL, "127.0.0.1", "localhost", 1)
	b.do(chromedp.Navigate(elsewhere))
	eval[bool](b, fmt.Sprintf(sendDeed, b.url("/do"), base))
	if text := b.until("elsewhere"); !strings.Contains(text, "cross-origin") && !strings.Contains(text, "another") {
		t.Errorf("what another site's form is told: %q", text)
	}
	if recorded() {
		t.Fatal("another site's form was recorded")
	}

	b.do(chromedp.Navigate("http://rebound.test:" + b.port + "/"))
	if text := eval[string](b, `document.body.innerText`); !strings.Contains(text, "not served under that name") ||
		strings.Contains(text, "Quillmere") {
		t.Errorf("under another name: %q", text)
	}

	b.open("/journal")
	eval[bool](b, fmt.Sprintf(sendDeed, "/do", base))
	for range 200 {
		if recorded() {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	t.Error("the same form of the bench's own page was not recorded: what was refused may not have been a deed")
}

// until waits until the page no longer says something, and gives what it says.
func (b *bencher) until(was string) string {
	b.t.Helper()
	text := was
	for range 200 {
		if text = eval[string](b, `document.body ? document.body.innerText : ""`); text != "" && text != was {
			return text
		}
		time.Sleep(25 * time.Millisecond)
	}
	return text
}
