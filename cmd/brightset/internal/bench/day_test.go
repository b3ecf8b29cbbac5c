package bench

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

var (
	anyForm   = regexp.MustCompile(`(?s)<form method="post" action="/do".*?</form>`)
	anyAction = regexp.MustCompile(`name="action" value="(\w+)"`)
)

// TestDayAndWords: whatever happened to a piece can have happened on another day, and have a word on it, in every
// state that a piece can be in.
func TestDayAndWords(t *testing.T) {
	h, _ := serve(demo(t), "")
	without := map[string]bool{"cleared": true, "lock": true, "ban": true, "note": true, "removed": true, "unlock": true,
		"unban": true, "slot": true}
	seen := map[string]bool{}
	look := func() {
		t.Helper()
		for _, path := range []string{"/?slot=crest", "/?slot=grille", "/shop", "/lots"} {
			for _, form := range anyForm.FindAllString(get(h, path).Body.String(), -1) {
				for _, m := range anyAction.FindAllStringSubmatch(form, -1) {
					seen[m[1]] = true
					if path != "/shop" && !without[m[1]] &&
						(!strings.Contains(form, `name="on"`) || !strings.Contains(form, `name="reason"`)) {
						t.Errorf("%s: %s has no day and no words", path, m[1])
					}
				}
			}
		}
	}
	do := func(form url.Values) {
		t.Helper()
		form.Set("base", base(t, h))
		form.Set("anyway", "1")
		if w := post(h, "/do", form); w.Code != http.StatusSeeOther {
			t.Fatal(form, w.Code, w.Body)
		}
		look()
	}
	look()
	do(url.Values{"action": {"sent"}, "target": {"job:crest-2"}, "way": {"pell|show|repair-replate"}, "slot": {"crest"}})
	do(url.Values{"action": {"stripped"}, "target": {"job:crest-2"}, "slot": {"crest"}, "on": {"2031-02-05"},
		"reason": {"by his boy"}})
	if text := get(h, "/journal").Body.String(); !strings.Contains(text, "2031-02-05") ||
		!strings.Contains(text, "by his boy") {
		t.Error("the day and the words are not kept")
	}
	do(url.Values{"action": {"back"}, "target": {"job:crest-2"}, "on": {"2031-02-06"}})
	do(url.Values{"action": {"hung"}, "target": {"job:crest-2"}, "slot": {"crest"}, "on": {"2031-02-07"}})
	for _, act := range []string{"fitted", "stripped", "approved", "plated", "back", "hung", "unhung", "came", "failed",
		"broke", "lost", "sold", "bought", "priced", "sent", "found", "graded", "quoted", "bundled", "unbundled"} {
		if !seen[act] {
			t.Errorf("no button for %s", act)
		}
	}
}
