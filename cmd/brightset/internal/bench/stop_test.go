package bench

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestOnce: the key that a browser is started with lets in the first that comes with it.
func TestOnce(t *testing.T) {
	s, _ := server(demo(t), "secret", "")
	s.pairing.once = "shown"
	h := s.Handler()
	letIn(t, h, "/?key=shown")
	if w := get(h, "/?key=shown"); w.Code != http.StatusForbidden || len(w.Result().Cookies()) > 0 {
		t.Error("the key of the browser opens twice:", w.Code)
	}
	letIn(t, h, "/?key=secret")
	if w := get(h, "/?key="); w.Code != http.StatusForbidden {
		t.Error("a used key is the empty one:", w.Code)
	}
}

// TestStopEverywhere: where there is no job yet, and where its files have mistakes, the page says
// how the program is stopped, too.
func TestStopEverywhere(t *testing.T) {
	job := filepath.Join(t.TempDir(), "job.toml")
	h, _ := serve(job, "")
	if text := get(h, "/start").Body.String(); !strings.Contains(text, `href="/stop"`) {
		t.Errorf("before there is a job: %s", text)
	}
	if err := os.WriteFile(job, []byte("[job\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if text := get(h, "/").Body.String(); !strings.Contains(text, "Mistakes in the files") ||
		!strings.Contains(text, `href="/stop"`) {
		t.Errorf("mistakes in the files: %s", text)
	}
}

// TestStop: the page ends the program, after a question, for who sits at its computer.
func TestStop(t *testing.T) {
	s, _ := server(demo(t), "", "")
	stopped := 0
	s.opt.Stop = func() { stopped++ }
	h := s.Handler()
	from := func(address string) func(*http.Request) {
		return func(r *http.Request) { r.RemoteAddr = address }
	}
	const here, there = "127.0.0.1:5123", "192.0.2.7:5123"
	if !strings.Contains(get(h, "/journal").Body.String(), `href="/stop"`) {
		t.Error("no page says how the bench is stopped")
	}
	if w := get(h, "/stop", from(here)); !strings.Contains(w.Body.String(), "<button>Stop") {
		t.Error("no button to stop:", w.Code)
	}
	if w := get(h, "/stop", from(there)); strings.Contains(w.Body.String(), "<button") {
		t.Error("a tablet is shown the button")
	}
	if w := post(h, "/stop", url.Values{}, from(there)); w.Code != http.StatusForbidden || stopped > 0 {
		t.Error("a tablet stops the bench:", w.Code)
	}
	w := post(h, "/stop", url.Values{}, from("[::1]:5123"))
	if w.Code != http.StatusOK || stopped != 1 || !strings.Contains(w.Body.String(), "has stopped") {
		t.Error("it doesn't stop:", w.Code, stopped)
	}
}
