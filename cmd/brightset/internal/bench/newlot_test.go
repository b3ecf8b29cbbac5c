package bench

import (
	"net/url"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestNewLot: on the page, too, a piece can be said to go by itself.
func TestNewLot(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	if !strings.Contains(get(h, "/?slot=crest").Body.String(), `name="new-lot"`) {
		t.Error("the form of a slot has no choice of a new lot")
	}
	for _, form := range []url.Values{{"target": {"crest-2"}}, {"target": {"drawer-grille"}, "new-lot": {"1"}}} {
		form.Set("action", "sent")
		form.Set("to", "pell")
		form.Set("base", base(t, h))
		if w := post(h, "/do", form); w.Code != 303 {
			t.Fatal(w.Code, w.Body)
		}
	}
	st, err := catalog.Load(job, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for piece, lot := range map[string]string{"crest-2": "pell-1", "drawer-grille": "pell-2"} {
		if i, _ := st.FindPiece(piece); st.Pieces[i].Sent.Lot != lot {
			t.Errorf("%s went in lot %q, not in %q", piece, st.Pieces[i].Sent.Lot, lot)
		}
	}
}
