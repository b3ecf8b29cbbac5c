package bench

import (
	"bytes"
	"image/color"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestFromNothing: from an empty folder to a plan and its papers without a text editor.
func TestFromNothing(t *testing.T) {
	job := filepath.Join(t.TempDir(), "boat", "job.toml")
	h, _ := serve(job, "")
	for _, p := range []string{"/", "/plan", "/shop", "/new"} {
		if w := get(h, p); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/start" {
			t.Fatalf("%s without a job: %d", p, w.Code)
		}
	}
	if w := get(h, "/start"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "Start a job") {
		t.Fatal(w.Code)
	}
	form := url.Values{"title": {`Launch "Marigold"`}, "target": {"nice"}, "currency": {"EUR"}, "budget": {"12,5,0"},
		"positions": {"left and right bow cleat, 20 in2\r\n\n Stem band, 4.5 dm2\nWheel: hub cap\nstem band\n"},
		"shop":      {"Our shop"}}
	w := post(h, "/start", form)
	if text := w.Body.String(); w.Code != http.StatusUnprocessableEntity || !strings.Contains(text, "12,5,0") ||
		!strings.Contains(text, "Marigold") || !strings.Contains(text, "Wheel: hub cap") {
		t.Fatal("a budget that is none: ", w.Code, text)
	}
	if _, err := os.Stat(filepath.Dir(job)); err == nil {
		t.Error("something was written for a job with a mistake")
	}
	form.Set("budget", "900.00")
	if w = post(h, "/start", form); w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
	st, err := catalog.Load(job, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for i := range st.Slots {
		ids = append(ids, st.Slots[i].ID)
	}
	if got := strings.Join(ids, " "); got != "left-bow-cleat right-bow-cleat stem-band wheel-hub-cap stem-band-2" {
		t.Error(got)
	}
	if st.Slots[0].Part != "bow-cleat" || st.Slots[1].AreaWritten != "20 in2" || st.Slots[1].Name != "right bow cleat" ||
		len(st.Matches) != 1 ||
		st.Job.Title != `Launch "Marigold"` || st.Job.Budget.V != 900_00 || st.Shop.Name != "Our shop" {
		t.Errorf("%+v", st.Job)
	}
	if w = get(h, "/"); !strings.Contains(w.Body.String(), "No piece yet for: left bow cleat") {
		t.Error("the page does not say what is missing")
	}
	do := func(path string, form url.Values) {
		t.Helper()
		form.Set("base", base(t, h))
		form.Set("back", "/")
		if w := post(h, path, form); w.Code != http.StatusSeeOther {
			t.Fatal(form, w.Code, w.Body)
		}
	}
	do("/do", url.Values{"action": {"slot"}, "name": {"Mast light"}, "area": {"20 in2"}, "with": {"stem-band"}})
	do("/do", url.Values{"action": {"plater"}, "name": {"Weir & Sons"}, "minimum": {"40.00"}, "days": {"20"},
		"level": {"show"}, "metal": {"brass"}, "rate": {"30.00"}, "grade": {"90"}})
	do("/do", url.Values{"action": {"plater"}, "target": {"weir-sons"}, "level": {"show"}, "metal": {"steel"},
		"rate": {"31.00"}, "grade": {"88"}})
	text := get(h, "/shop").Body.String()
	if !strings.Contains(text, "Weir &amp; Sons") || !strings.Contains(text, "31.00") {
		t.Error("the plater does not show")
	}
	for _, slot := range []string{"bow-cleat", "bow-cleat", "stem-band", "wheel-hub-cap", "stem-band-2", "mast-light"} {
		body, kind := photoForm(t, map[string]string{"base": base(t, h), "back": "/", "fits": slot, "kind": "original",
			"metal": "brass",
			"name":  "the " + slot + " off the boat"}, pictureOf(30, 20, color.YCbCr{Y: 9, Cb: 128, Cr: 128}))
		if w := postBody(h, "/piece", kind, body); w.Code != http.StatusSeeOther {
			t.Fatal(w.Code, w.Body)
		}
	}
	if st, err = catalog.Load(job, catalog.Options{}); err != nil || len(st.Pieces) != 6 || len(st.Pieces[5].Photos) != 1 {
		t.Fatal(err)
	}
	for _, slot := range []string{"wheel-hub-cap", "stem-band-2"} {
		do("/do", url.Values{"action": {"slot"}, "target": {slot}, "area": {"30 cm2"}})
	}
	for i := range st.Pieces {
		do("/do", url.Values{
			"action":   {"found"},
			"target":   {st.Pieces[i].Key()},
			"defect":   {"scratches"},
			"severity": {"severe"},
		})
	}
	w = get(h, "/papers")
	if text := w.Body.String(); w.Code != http.StatusOK || !strings.Contains(text, "Held back") {
		t.Error(w.Code, text)
	}
	// beginning again touches nothing
	before := folder(t, job)
	if w = post(h, "/start", form); w.Code != http.StatusSeeOther || folder(t, job) != before {
		t.Error("a job that is there was begun anew", w.Code)
	}
}

// TestStartBesideAShop: a shop that is there serves the new job too, and is left as it is.
func TestStartBesideAShop(t *testing.T) {
	dir := t.TempDir()
	shop := []byte("[shop]\nname = \"Mine\"\n[plater.p]\nminimum = \"5.00\"\n")
	if err := os.WriteFile(filepath.Join(dir, "shop.toml"), shop, 0o644); err != nil {
		t.Fatal(err)
	}
	h, _ := serve(filepath.Join(dir, "job.toml"), "")
	w := post(h, "/start", url.Values{"title": {"x"}, "positions": {"a"}, "shop": {"Other"}})
	if w.Code != http.StatusSeeOther {
		t.Fatal(w.Code, w.Body)
	}
	st, err := catalog.Load(filepath.Join(dir, "job.toml"), catalog.Options{})
	now, _ := os.ReadFile(filepath.Join(dir, "shop.toml"))
	if err != nil || len(st.Platers) != 1 || !bytes.Equal(now, shop) {
		t.Error(err, string(now))
	}
}
