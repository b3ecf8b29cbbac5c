package bench

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// TestTwice: a request that comes twice is recorded once, and answered with what it did, whether the
// program was started anew in between or not; another form of the same page is another request.
func TestTwice(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	form := url.Values{"action": {"spent"}, "target": {"tape"}, "cost": {"12.00"}, "base": {base(t, h)},
		"token": {"00112233"}, "back": {"/journal"}}
	first := post(h, "/do", form)
	again := post(h, "/do", form)
	h, _ = serve(job, "")
	later := post(h, "/do", form)
	if at := first.Header().Get("Location"); first.Code != http.StatusSeeOther || at != "/journal?did=1" ||
		again.Header().Get("Location") != at || later.Header().Get("Location") != at {
		t.Error(first.Code, at, again.Code, again.Header().Get("Location"), later.Code, later.Body)
	}
	s, _ := server(job, "", "")
	if st := loaded(t, s); st.Job.SpentSum != 12_00 {
		t.Errorf("spent %d", st.Job.SpentSum)
	}
	form.Set("target", "paste")
	if w := post(h, "/do", form); w.Header().Get("Location") != "/journal?did=2" {
		t.Error("another form of the page is taken for the first:", w.Code, w.Body)
	}
	if st := loaded(t, s); st.Job.SpentSum != 24_00 {
		t.Errorf("spent %d", st.Job.SpentSum)
	}
}

// TestTwoPeople: what one does is in the way of the other only where both are at the same thing.
func TestTwoPeople(t *testing.T) {
	h, _ := serve(demo(t), "")
	shown := base(t, h)
	do := func(form url.Values) int {
		form.Set("base", shown)
		return post(h, "/do", form).Code
	}
	found := func(piece string) url.Values {
		return url.Values{"action": {"found"}, "target": {piece}, "defect": {"pits"}}
	}
	for _, one := range []struct {
		form url.Values
		code int
	}{{found("job:arm-1"), 303}, {found("job:crest-2"), 303}, {found("shop:drawer-arm"), 303}, {found("job:arm-1"), 409},
		{found("shop:drawer-arm"), 409}, {url.Values{"action": {"spent"}, "target": {"tape"}, "cost": {"1.00"}}, 303},
		{url.Values{"action": {"sent"}, "pieces": {"job:crest-2", "shop:drawer-grille"}, "to": {"pell"}}, 409},
		{url.Values{"action": {"lock"}, "target": {"grille"}, "piece": {"shop:drawer-grille"}}, 303}} {
		if code := do(one.form); code != one.code {
			t.Errorf("%v: %d, not %d", one.form, code, one.code)
		}
	}
	if w := post(h, "/turn", url.Values{"which": {"undo"}, "base": {shown}}); w.Code != http.StatusConflict {
		t.Error("somebody else's act is taken back unseen:", w.Code)
	}
	now := base(t, h)
	if w := post(h, "/turn", url.Values{"which": {"undo"}, "base": {now}}); w.Code != http.StatusSeeOther {
		t.Error(w.Code, w.Body)
	}
	shown = now
	if code := do(found("job:bezel-c2")); code != http.StatusConflict {
		t.Error("after something was taken back, a form of before is recorded:", code)
	}
}

// TestSaidAndTakenBack: a page says what was just recorded and has the button that takes it back; then it
// says that, and has the one that brings it back. Another page's forms don't carry it on.
func TestSaidAndTakenBack(t *testing.T) {
	h, _ := serve(demo(t), "")
	w := post(h, "/do", url.Values{"action": {"found"}, "target": {"job:crest-2"}, "defect": {"pits"},
		"base": {base(t, h)}, "back": {"/?slot=crest"}})
	text := get(h, w.Header().Get("Location")).Body.String()
	if !strings.Contains(text, "Recorded: <bdi>found crest-2") || !strings.Contains(text, "Undo this") ||
		!strings.Contains(text, `name="back" value="/?slot=crest"`) || strings.Contains(text, `value="/?did`) {
		t.Error(w.Code, w.Header())
	}
	w = post(h, "/turn", url.Values{"which": {"undo"}, "base": {base(t, h)}, "back": {"/?slot=crest"}})
	text = get(h, w.Header().Get("Location")).Body.String()
	if !strings.Contains(text, "Taken back: <bdi>found crest-2") || !strings.Contains(text, "Bring it back") {
		t.Error(w.Code, w.Header())
	}
	for _, nothing := range []string{"/?slot=crest&did=77", "/?slot=crest&did=x", "/?slot=crest&undone=-1"} {
		if strings.Contains(get(h, nothing).Body.String(), `class="did"`) {
			t.Error(nothing, "says that something was recorded")
		}
	}
}

// TestRefusedKeepsTyped: a form that is refused comes back with what was typed, to be put right.
func TestRefusedKeepsTyped(t *testing.T) {
	h, _ := serve(demo(t), "")
	w := post(h, "/do", url.Values{"action": {"spent"}, "target": {"chrome tape"}, "cost": {"12,50"},
		"words": {"for the <left> door"}, "base": {base(t, h)}})
	text := w.Body.String()
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(text, `name="cost" value="12,50"`) ||
		!strings.Contains(text, `name="target" value="chrome tape"`) || !strings.Contains(text, "&lt;left&gt;") {
		t.Error(w.Code, text)
	}
}

// TestLots: what the plan sends to one plater goes in one lot with one freight, each piece its own way,
// and comes back together.
func TestLots(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	text := get(h, "/lots").Body.String()
	form := url.Values{"action": {"sent"}, "to": {"brackwater"}, "base": {base(t, h)}, "back": {"/lots"}}
	part := text[strings.Index(text, `name="to" value="brackwater"`):]
	part = part[:strings.Index(part, "</form>")]
	for _, m := range regexp.MustCompile(`name="(pieces|(?:level|work|slot) of [^"]+)" value="([^"]*)"`).
		FindAllStringSubmatch(part, -1) {
		form.Add(m[1], m[2])
	}
	if len(form["pieces"]) < 3 {
		t.Fatal("few pieces go:", form["pieces"])
	}
	form.Set("on", "2031-01-30")
	if w := post(h, "/do", form); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
	s, _ := server(job, "", "")
	st := loaded(t, s)
	freights := 0
	for _, one := range st.Job.Spent {
		if strings.HasPrefix(one.For, "freight of brackwater") {
			freights++
		}
	}
	away := 0
	for i := range st.Pieces {
		if p := &st.Pieces[i]; p.AtPlater() && p.Sent.Lot == "brackwater-1" &&
			p.Sent.On.V.Format("2006-01-02") == "2031-01-30" {
			away++
		}
	}
	if freights != 1 || away != len(form["pieces"]) {
		t.Errorf("%d freights, %d of %d pieces", freights, away, len(form["pieces"]))
	}
	if text = get(h, "/lots").Body.String(); !strings.Contains(text, "lot <bdi>brackwater-1") {
		t.Error("the lot doesn't show")
	}
	home := url.Values{"action": {"back"}, "pieces": form["pieces"], "base": {base(t, h)}}
	home.Set("grade of "+form["pieces"][0], "fine")
	if w := post(h, "/do", home); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
}

// TestNoDeadEnd: where a lock leaves nothing that fits, the page names it, says what the set costs without
// it, and has the button that lifts it.
func TestNoDeadEnd(t *testing.T) {
	h, _ := serve(demo(t), "")
	do := func(form url.Values) {
		t.Helper()
		form.Set("base", base(t, h))
		if w := post(h, "/do", form); w.Code != http.StatusSeeOther {
			t.Fatal(form, w.Code, w.Body)
		}
	}
	do(url.Values{"action": {"lock"}, "target": {"crest"}, "piece": {"job:crest-2"}})
	do(url.Values{"action": {"broke"}, "target": {"job:crest-2"}})
	if text := get(h, "/?slot=crest").Body.String(); !strings.Contains(text, `data-part="/clash`) {
		t.Fatal("the page has no way out")
	}
	text := get(h, "/clash?back=/").Body.String()
	if !strings.Contains(text, "the set then costs") || !strings.Contains(text, "Leave it to the plan") ||
		!strings.Contains(text, `name="action" value="unlock"`) {
		t.Fatal(text)
	}
	do(url.Values{"action": {"unlock"}, "target": {"crest"}})
	if text := get(h, "/").Body.String(); strings.Contains(text, "/clash") {
		t.Error("still nothing fits")
	}
	do(url.Values{"action": {"terms"}, "budget": {"1.00"}})
	text = get(h, "/clash?back=/").Body.String()
	m := regexp.MustCompile(`name="budget" value="([0-9.]+)"`).FindStringSubmatch(text)
	if m == nil {
		t.Fatal("no step back from the budget:", text)
	}
	do(url.Values{"action": {"terms"}, "budget": {m[1]}})
	if text := get(h, "/").Body.String(); strings.Contains(text, "/clash") {
		t.Error("the step back is not enough")
	}
}

// TestWholeShop: all that a job and its shop are made of can be added at the page and taken away, the plan
// kept, and hunt, risk and learn read.
func TestWholeShop(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	do := func(form url.Values) {
		t.Helper()
		form.Set("base", base(t, h))
		if w := post(h, "/do", form); w.Code != http.StatusSeeOther {
			t.Fatal(form, w.Code, w.Body)
		}
	}
	do(url.Values{"action": {"plan"}})
	do(url.Values{"action": {"vendor"}, "name": {"Quay & Finds"}, "freight": {"12.00"}})
	do(url.Values{"action": {"maker"}, "name": {"Josh"}, "hourly": {"40.00"}, "works": {"new post", "mend crack"}})
	do(url.Values{"action": {"bundle"}, "name": {"Box of trim"}, "from": {"quay-finds"}, "price": {"90.00"}})
	do(url.Values{"action": {"match"}, "slots": {"vent-left", "vent-right"}, "same-plater": {"1"}})
	do(url.Values{"action": {"trade"}, "give": {"job:arm-1"}, "get": {"shop:drawer-arm"}, "credit": {"5.00"}})
	do(url.Values{"action": {"avenue"}, "where": {"autumn meet"}, "slot": {"crest"}, "kind": {"original"},
		"chance": {"0.3"}, "price": {"300.00"}})
	text := get(h, "/shop").Body.String()
	for _, want := range []string{"Quay &amp; Finds", "Josh", "box-of-trim", "autumn meet", "left vent handle"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q does not show", want)
		}
	}
	s, _ := server(job, "", "")
	if st := loaded(t, s); st.Kept == nil || len(st.Makers[len(st.Makers)-1].Works) != 2 {
		t.Error("the plan isn't kept, or a maker lacks a work")
	}
	do(url.Values{"action": {"removed"}, "what": {"bundle"}, "target": {"box-of-trim"}})
	do(url.Values{"action": {"removed"}, "what": {"vendor"}, "target": {"quay-finds"}})
	if strings.Contains(get(h, "/shop").Body.String(), "box-of-trim") {
		t.Error("what was taken away still shows")
	}
	for path, want := range map[string]string{"/hunt": "/hunt.part", "/risk": "/risk.part", "/learn": "Learnt from",
		"/hunt.part": "look out for", "/risk.part": "like this one"} {
		if w := get(h, path); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), want) {
			t.Error(path, w.Code, w.Body)
		}
	}
}
