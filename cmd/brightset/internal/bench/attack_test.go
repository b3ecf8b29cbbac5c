package bench

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"
)

// letIn gives the cookie with which a device is let in at a path.
func letIn(t *testing.T, h http.Handler, path string) *http.Cookie {
	t.Helper()
	w := get(h, path)
	if w.Code != http.StatusSeeOther || len(w.Result().Cookies()) != 1 || w.Header().Get("Location") != "/" {
		t.Fatal(w.Code, w.Header())
	}
	return w.Result().Cookies()[0]
}

// TestKey: without the terminal's link no user of the machine sees or does anything; with it
// a browser is let in, the key leaves the address, and the cookie is good at this port alone.
func TestKey(t *testing.T) {
	s, _ := server(demo(t), "secret", "")
	h := s.Handler()
	for _, p := range append(paths, "/?key=", "/?key=secre", "/?key=secrets", "/plan?key=secret", "/pair") {
		if w := get(h, p); w.Code != http.StatusForbidden || strings.Contains(w.Body.String(), "Quillmere") ||
			len(w.Result().Cookies()) > 0 {
			t.Errorf("%s without the key: %d", p, w.Code)
		}
	}
	if w := post(h, "/do", url.Values{"action": {"broke"}, "key": {"secret"}}); w.Code != http.StatusForbidden {
		t.Errorf("an act without the key: %d", w.Code)
	}
	c := letIn(t, h, "/?key=secret")
	if !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || !strings.HasSuffix(c.Name, "-8477") {
		t.Errorf("%+v", c)
	}
	with := func(name, value string) func(*http.Request) {
		return func(r *http.Request) { r.AddCookie(&http.Cookie{Name: name, Value: value}) }
	}
	if w := get(h, "/journal", with(c.Name, c.Value)); w.Code != http.StatusOK {
		t.Error("let in, and refused", w.Code)
	}
	if w := get(h, "/?key=secret", with(c.Name, c.Value)); w.Code != http.StatusSeeOther ||
		w.Header().Get("Location") != "/" || len(w.Result().Cookies()) > 0 {
		t.Error("opened once more, the link leaves its key in the address or gives another token", w.Code)
	}
	for _, other := range []func(*http.Request){with(c.Name, "x"+c.Value[1:]),
		with("brightset-bench-8478", c.Value), with(c.Name, "")} {
		if w := get(h, "/journal", other); w.Code != http.StatusForbidden {
			t.Error("another cookie is let in")
		}
	}
}

// TestCode: other devices are let in by the code, once; the next one gets another.
func TestCode(t *testing.T) {
	s, told := server(demo(t), "secret", "ABCD-EFGH-JKLM")
	h, now := s.Handler(), time.Now()
	s.clock = func() time.Time { now = now.Add(between); return now }
	for _, p := range paths {
		if w := get(h, p); p != "/pair" && (w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/pair") {
			t.Errorf("%s without a code: %d", p, w.Code)
		}
	}
	if w := post(h, "/do", url.Values{"action": {"broke"}}); w.Code != http.StatusForbidden {
		t.Errorf("an act without a code: %d", w.Code)
	}
	letIn(t, h, "/?key=secret")
	code := func(text string) *http.Response { return post(h, "/pair", url.Values{"code": {text}}).Result() }
	for _, no := range []string{"", "ABCD-EFGH-JKLN", "ABCD-EFGH", "----"} {
		if len(code(no).Cookies()) > 0 {
			t.Errorf("%q lets in", no)
		}
	}
	if len(code(" abcd efgh jklm ").Cookies()) != 1 {
		t.Error("the code as people type it does not let in")
	}
	if len(code("ABCD-EFGH-JKLM").Cookies()) > 0 {
		t.Error("the code works twice")
	}
	if len(*told) != 1 || !strings.Contains((*told)[0], "next one: ") {
		t.Fatalf("%q", *told)
	}
	if _, next, _ := strings.Cut((*told)[0], "next one: "); len(code(next).Cookies()) != 1 {
		t.Error("the next code does not let in")
	}
}

// TestGuessing: whoever tries codes gets one looked at a second, twenty in all, whatever the
// number of connections; the code stays on the terminal, nothing is printed meanwhile, and
// after it is stopped not even the right one lets in before somebody presses Enter there.
func TestGuessing(t *testing.T) {
	s, told := server(demo(t), "secret", "ABCD-EFGH-JKLM")
	h, now := s.Handler(), time.Now()
	s.clock = func() time.Time { return now }
	guess := func(text string) (why string, in bool) {
		w := post(h, "/pair", url.Values{"code": {text}})
		_, why, _ = strings.Cut(w.Header().Get("Location"), "why=")
		return why, len(w.Result().Cookies()) > 0
	}
	looked := 0
	for range 500 {
		why, in := guess("WRNG-WRNG-WRNG")
		if in {
			t.Fatal("a wrong code lets in")
		}
		if why != "soon" {
			looked++
		}
	}
	if looked != 1 {
		t.Errorf("%d codes were looked at in one moment", looked)
	}
	for range 40 {
		now = now.Add(between)
		if why, _ := guess("WRNG-WRNG-WRNG"); why != "stopped" {
			looked++
		}
	}
	if looked != mostMiss || len(*told) != 1 || !strings.Contains((*told)[0], "Press Enter") {
		t.Errorf("%d codes were looked at; told: %q", looked, *told)
	}
	now = now.Add(time.Hour)
	if _, in := guess("ABCD-EFGH-JKLM"); in {
		t.Error("the right code lets in after it was stopped")
	}
	fresh := s.LetTryAgain()
	if len(typed(fresh)) != 12 || s.LetTryAgain() != "" {
		t.Errorf("%q, and again", fresh)
	}
	if _, in := guess("ABCD-EFGH-JKLM"); in {
		t.Error("the old code lets in")
	}
	now = now.Add(between)
	if _, in := guess(fresh); !in {
		t.Error("the new code does not let in")
	}
}

// TestCrossSite: nothing another site causes is answered, looking and pictures included, and
// nothing is worked out for it; what the user types or follows from the terminal is.
func TestCrossSite(t *testing.T) {
	h, _ := serve(demo(t), "")
	for _, p := range append(paths, "/static/bench.css", "/photo?piece=job:crest-2&n=0") {
		for _, site := range []string{"cross-site", "same-site"} {
			w := get(h, p, func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", site) })
			if w.Code != http.StatusForbidden || strings.Contains(w.Body.String(), "Quillmere") {
				t.Errorf("%s for another site: %d", p, w.Code)
			}
		}
	}
	for _, site := range []string{"none", "same-origin", ""} {
		if w := get(h, "/journal", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", site) }); w.Code != http.StatusOK {
			t.Errorf("%q: %d", site, w.Code)
		}
	}
}

// TestAddresses: a folder is not listed, an address that no page asks for is cut off, and the
// names of the machine are those it has now.
func TestAddresses(t *testing.T) {
	s, _ := server(demo(t), "", "")
	h := s.Handler()
	if w := get(h, "/static/"); w.Code != http.StatusNotFound || strings.Contains(w.Body.String(), "bench.js") {
		t.Errorf("the folder is listed: %d", w.Code)
	}
	if w := get(h, "/static/bench.css"); w.Code != http.StatusOK {
		t.Error(w.Code)
	}
	if w := get(h, "/?slot="+strings.Repeat("x", maxQuery)); w.Code != http.StatusRequestURITooLong {
		t.Error(w.Code)
	}
	moved := "192.0.2.7:8477" // an address of RFC 5737, for documentation
	there := func(r *http.Request) { r.Host = moved }
	if w := get(h, "/journal", there); w.Code != http.StatusMisdirectedRequest {
		t.Error(w.Code)
	}
	s.opt.Hosts = func() []string { return []string{moved} }
	if w := get(h, "/journal", there); w.Code != http.StatusOK {
		t.Error("the machine's new address is not answered", w.Code)
	}
}

// TestBusy: no more is worked on at once than there is room for, those who wait get in in
// their turn, and who comes when too many wait is told so at once.
func TestBusy(t *testing.T) {
	g := newGate(2, 1, time.Minute)
	inside, out := make(chan bool, 10), make(chan bool)
	h := g.through(func(w http.ResponseWriter, _ *http.Request) { inside <- true; <-out })
	done := make(chan int, 10)
	ask := func() { done <- get(h, "/").Code }
	go ask()
	go ask()
	<-inside
	<-inside
	go ask() // waits
	for len(g.waiting) < 3 {
		time.Sleep(time.Millisecond)
	}
	if w := get(h, "/"); w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" {
		t.Errorf("one too many: %d", w.Code)
	}
	if len(inside) != 0 {
		t.Error("three are worked on at once")
	}
	out <- true
	<-inside // the one that waited
	out <- true
	out <- true
	for range 3 {
		if code := <-done; code != http.StatusOK {
			t.Error(code)
		}
	}
	impatient := newGate(1, 5, time.Millisecond)
	leave, _ := impatient.enter(aRequest())
	if _, ok := impatient.enter(aRequest()); ok || len(impatient.waiting) != 1 {
		t.Error("who waited too long is let in, or still counts")
	}
	leave()
	if _, ok := impatient.enter(aRequest()); !ok {
		t.Error("the place that was given back is not free")
	}
}

func aRequest() *http.Request { return httptest.NewRequest("GET", "/", nil) }
