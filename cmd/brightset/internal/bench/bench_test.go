package bench

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"regexp"
	"strings"
	"testing"
)

const host = "127.0.0.1:8477"

var baseField = regexp.MustCompile(`name="base" value="([0-9a-f]+)"`)

var paths = []string{"/", "/?slot=grille", "/new", "/plan", "/what-if", "/papers", "/paper/buy", "/journal",
	"/why?slot=grille", "/others", "/what-if.json?mean=88&budget=1500", "/photo?piece=job:crest-2&n=0",
	"/static/bench.js", "/pair"}

// TestGetChangesNothing asks for every page, and for every act by GET.
func TestGetChangesNothing(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	before := folder(t, job)
	for _, p := range paths {
		if w := get(h, p); w.Code != 200 {
			t.Errorf("%s: %d %s", p, w.Code, w.Body)
		}
	}
	for _, p := range []string{"/do?action=broke&target=crest-2", "/turn?which=undo"} {
		if w := get(h, p); w.Code == 200 || w.Code == 303 {
			t.Errorf("%s by GET: %d", p, w.Code)
		}
	}
	if folder(t, job) != before {
		t.Error("a GET changed something")
	}
}

func TestHeaders(t *testing.T) {
	h, _ := serve(demo(t), "")
	for _, p := range paths {
		w := get(h, p)
		csp := w.Header().Get("Content-Security-Policy")
		if !strings.Contains(csp, "default-src 'none'") || strings.Contains(csp, "unsafe") ||
			w.Header().Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: %v", p, w.Header())
		}
		text := w.Body.String()
		if strings.Contains(text, "<style") && !strings.HasPrefix(p, "/paper/") || strings.Contains(text, " style=") ||
			strings.Contains(text, " onclick=") || strings.Contains(text, "<script>") {
			t.Errorf("%s has style or script in it", p)
		}
		if m := regexp.MustCompile(`(src|href)="(https?:|//)[^"]*`).FindString(text); m != "" {
			t.Errorf("%s loads from outside: %s", p, m)
		}
	}
}

// TestHosts: another name for this machine is not answered: DNS rebinding.
func TestHosts(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	for _, name := range []string{"evil.example", "127.0.0.1", "127.0.0.1:80", "localhost.evil.example:8477",
		"127.0.0.1:8477.evil.example", ""} {
		w := get(h, "/", func(r *http.Request) { r.Host = name })
		if w.Code != http.StatusMisdirectedRequest || strings.Contains(w.Body.String(), "Quillmere") {
			t.Errorf("%q: %d", name, w.Code)
		}
	}
	if w := get(h, "/"); w.Code != 200 {
		t.Error(w.Code)
	}
}

// TestCrossOrigin: a form that another site sends is refused, whatever it says.
func TestCrossOrigin(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	form := url.Values{"action": {"broke"}, "target": {"crest-2"}, "base": {base(t, h)}}
	before := folder(t, job)
	for name, change := range map[string]func(*http.Request){
		"cross-site": func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") },
		"same-site":  func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-site") },
		"other origin": func(r *http.Request) {
			r.Header.Del("Sec-Fetch-Site")
			r.Header.Set("Origin", "http://evil.example")
		},
		"null origin": func(r *http.Request) { r.Header.Del("Sec-Fetch-Site"); r.Header.Set("Origin", "null") },
	} {
		for _, path := range []string{"/do", "/turn", "/photo", "/pair"} {
			if w := post(h, path, form, change); w.Code != http.StatusForbidden {
				t.Errorf("%s %s: %d", name, path, w.Code)
			}
		}
	}
	if folder(t, job) != before {
		t.Error("something was recorded")
	}
}

func TestBack(t *testing.T) {
	for to, want := range map[string]string{
		"/?slot=a": "/?slot=a", "": "/", "http://evil.example/": "/", "//evil.example": "/", "/\\evil.example": "/",
		"javascript:alert(1)": "/", "plan": "/",
	} {
		if got := back(to); got != want {
			t.Errorf("%q: %q", to, got)
		}
	}
}

func TestDeeds(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	do := func(form url.Values) *httptest.ResponseRecorder {
		form.Set("base", base(t, h))
		form.Set("back", "/?slot=crest")
		return post(h, "/do", form)
	}
	w := do(url.Values{"action": {"found"}, "target": {"job:arm-1"}, "defect": {"pits"}, "severity": {"light"},
		"extent": {"0.1"}, "where": {"edge"}})
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/?did=1&slot=crest" {
		t.Fatal(w.Code, w.Body)
	}
	if text := get(h, "/?slot=mirror-left").Body.String(); !strings.Contains(text, "pits, light, over 10% of the edge") {
		t.Error("the finding does not show")
	}
	w = do(url.Values{"action": {"sent"}, "target": {"job:crest-2"}, "way": {"pell|show|repair-replate"}})
	if w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
	shown := get(h, "/?slot=crest").Body.String()
	if !strings.Contains(shown, "at Pell Lane Die-Cast, to be stripped and priced") {
		t.Error("the lot does not show")
	}
	banned := url.Values{"action": {"sent"}, "target": {"job:crest-1"},
		"way": {"brackwater|driver|repair-replate"}, "slot": {"crest"}}
	if w := do(banned); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(),
		"no-cheap-crest") ||
		!strings.Contains(w.Body.String(), `name="anyway"`) {
		t.Error("sent against a ban:", w.Code, w.Body)
	}
	banned.Set("anyway", "1")
	if w := do(banned); w.Code != http.StatusSeeOther {
		t.Error("it happened all the same:", w.Code, w.Body)
	}
	w = do(url.Values{"action": {"graded"}, "target": {"job:arm-1"}, "grade": {"nise"}})
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "did you mean") {
		t.Error(w.Code, w.Body)
	}
	if w := do(url.Values{"action": {"nonsense"}}); w.Code != http.StatusBadRequest {
		t.Error(w.Code)
	}
	stale := base(t, h)
	w = post(h, "/turn", url.Values{"which": {"undo"}, "base": {stale}, "back": {"/"}})
	if w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
	// another tab still shows the page from before
	w = post(h, "/do", url.Values{"action": {"broke"}, "target": {"job:arm-1"}, "base": {stale}})
	if w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "hanged meanwhile") {
		t.Error(w.Code, w.Body)
	}
	// a hand edit underneath
	stale = base(t, h)
	text, _ := os.ReadFile(job)
	os.WriteFile(job, append(text, "\n# a note\n"...), 0o644)
	w = post(h, "/do", url.Values{"action": {"broke"}, "target": {"job:arm-1"}, "base": {stale}})
	if w.Code != http.StatusConflict {
		t.Error(w.Code)
	}
	// and one with a mistake
	os.WriteFile(job, append(text, "\n[slot.grille]\n"...), 0o644)
	if w := get(h, "/"); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "written twice") {
		t.Error(w.Code, w.Body)
	}
}

// TestNothingFits: a job without a plan has pages too.
func TestNothingFits(t *testing.T) {
	job := demo(t)
	text, _ := os.ReadFile(job)
	os.WriteFile(job, bytes.Replace(text, []byte(`budget = "1900.00"`), []byte(`budget = "1.00"`), 1), 0o644)
	h, _ := serve(job, "")
	for _, p := range []string{"/", "/plan", "/what-if", "/papers", "/journal", "/new"} {
		if w := get(h, p); w.Code != 200 || !strings.Contains(w.Body.String(), "Nothing meets the target") {
			t.Errorf("%s: %d", p, w.Code)
		}
	}
}
