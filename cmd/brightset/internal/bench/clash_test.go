package bench

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

var (
	formOfStep = regexp.MustCompile(`(?s)<form method="post" action="/do">(.*?)</form>`)
	hiddenOne  = regexp.MustCompile(`<input type="hidden" name="([^"]+)" value="([^"]*)">`)
)

// steps are the forms of the steps back that the page offers, by the words on their buttons.
func steps(text string) map[string]url.Values {
	all := map[string]url.Values{}
	for _, m := range formOfStep.FindAllStringSubmatch(text, -1) {
		form := url.Values{}
		for _, h := range hiddenOne.FindAllStringSubmatch(m[1], -1) {
			form.Add(h[1], h[2])
		}
		_, button, _ := strings.Cut(m[1], "<button>")
		button, _, _ = strings.Cut(button, "</button>")
		all[button] = form
	}
	return all
}

// TestStepsBack: whatever leaves nothing that fits, the button beside the step back takes it, and a set fits again.
func TestStepsBack(t *testing.T) {
	type acts []url.Values
	for _, c := range []struct {
		button string
		before acts
	}{
		{"Ask for a mean of", acts{{"action": {"terms"}, "mean": {"99.5"}}}},
		{"Ask for grade", acts{{"action": {"slot"}, "target": {"bezel-clock"}, "floor": {"99.9"}}}},
		{"They need not match", acts{
			{"action": {"match"}, "slots": {"crank-left", "mirror-left"}, "tone-within": {"0"}, "grade-within": {"0"}}}},
		{"It was taken down again", acts{{"action": {"hung"}, "target": {"job:crest-1"}, "slot": {"crest"}}}},
		{"It was taken back", acts{
			{"action": {"sent"}, "target": {"job:spear-l1"}, "to": {"brackwater"}, "level": {"driver"}},
			{"action": {"lock"}, "target": {"spear-left"}, "piece": {"job:spear-l1"}},
			{"action": {"lock"}, "target": {"spear-right"}, "piece": {"job:spear-r1"}, "to": {"hollin"}}}},
	} {
		h, _ := serve(demo(t), "")
		for _, form := range c.before {
			form.Set("base", base(t, h))
			form.Set("anyway", "1")
			if w := post(h, "/do", form); w.Code != http.StatusSeeOther {
				t.Fatal(form, w.Code, w.Body)
			}
		}
		w := get(h, "/clash?back=/")
		if w.Code != http.StatusOK {
			t.Errorf("%s: something fits still", c.button)
			continue
		}
		taken := false
		for button, form := range steps(w.Body.String()) {
			if !strings.HasPrefix(button, c.button) {
				continue
			}
			taken = true
			if w := post(h, "/do", form); w.Code != http.StatusSeeOther {
				t.Fatal(button, form, w.Code, w.Body)
			}
			if text := get(h, "/").Body.String(); strings.Contains(text, "/clash") {
				t.Errorf("%s: nothing fits after it", button)
			}
		}
		if !taken {
			t.Errorf("no button %q: %s", c.button, w.Body)
		}
	}
}
