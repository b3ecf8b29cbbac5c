package bench

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/cmd/brightset/internal/record"
)

// do records what a form says. The form carries the revision that its page showed: if
// anything changed since, nothing is recorded and the page is shown anew.
func (s *Server) do(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.fail(w, r, http.StatusBadRequest, err)
		return
	}
	a, ok := record.Find(r.PostForm.Get("action"))
	if !ok {
		s.fail(w, r, http.StatusBadRequest, fmt.Errorf("nothing is called %q", r.PostForm.Get("action")))
		return
	}
	s.writing.Lock()
	defer s.writing.Unlock()
	d, err := s.asShown(r)
	if err != nil {
		s.refuse(w, r, err)
		return
	}
	f := facts(r.PostForm)
	if f.Target == "" {
		f.Target = newName(d.State, a.Name, f.Name)
	}
	deed, err := a.Deed(d, f)
	if err == nil {
		_, err = d.Record(deed)
	}
	var clash *record.Clash
	if errors.As(err, &clash) {
		s.show(w, http.StatusUnprocessableEntity, "failed", map[string]any{"Lines": clash.Against,
			"Back":  back(r.FormValue("back")),
			"Again": r.PostForm})
		return
	}
	if err != nil {
		s.refuse(w, r, err)
		return
	}
	http.Redirect(w, r, back(r.PostForm.Get("back")), http.StatusSeeOther)
}

// newName is an id for something new that none has yet: of a piece by its number, of a position
// or a plater by the name that was typed; "" for what is never new.
func newName(st *catalog.State, action event.Action, name string) string {
	taken := map[string]bool{}
	switch action {
	case event.New:
		for n := len(st.Pieces) + 1; ; n++ {
			id := fmt.Sprintf("piece-%d", n)
			if _, known := st.FindPiece(id); !known {
				return id
			}
		}
	case event.Slot:
		for i := range st.Slots {
			taken[st.Slots[i].ID] = true
		}
	case event.Plater:
		for i := range st.Platers {
			taken[st.Platers[i].ID] = true
		}
	default:
		return ""
	}
	return freeID(name, taken)
}

// facts reads the fields of a form, named as the flags of record.
func facts(v url.Values) record.Facts {
	get := func(key string) string { return strings.TrimSpace(v.Get(key)) }
	if to := strings.Split(get("to-level"), "|"); len(to) == 3 { // one button names all three
		v.Set("to", to[0])
		v.Set("level", to[1])
		v.Set("work", to[2])
	}
	return record.Facts{
		Target: get("target"), Fits: strings.Join(v["fits"], ","), Kind: get("kind"), Metal: get("metal"),
		Owner: get("owner"), Name: get("name"), Tag: get("tag"),
		Place: get("place"), Marks: get("marks"), Quantity: get("quantity"), Value: get("value"), Chance: get("chance"),
		Defect: get("defect"), Severity: get("severity"), Extent: get("extent"), Count: get("count"), Where: get("where"),
		Grade: get("grade"), Tone: get("tone"), Days: get("days"), Breakage: get("breakage"), Cost: get("cost"),
		Credit: get("credit"), Freight: get("freight"),
		To: get("to"), Work: get("work"), Level: get("level"), Firm: get("firm"), Slot: get("slot"), Piece: get("piece"),
		StripFirst: get("strip-first") != "", NewLot: get("new-lot") != "", On: get("on"), Reason: get("reason"),
		From: get("from"), Price: get("price"), Anyway: get("anyway") != "",
		Part: get("part"), Area: get("area"), Weight: get("weight"), Goal: get("goal"), With: get("with"),
		Minimum: get("minimum"), Hourly: get("hourly"), Least: get("least"), StripFee: get("strip-fee"), Rate: get("rate"),
	}
}

// turn takes the last action back, or brings it back.
func (s *Server) turn(w http.ResponseWriter, r *http.Request) {
	s.writing.Lock()
	defer s.writing.Unlock()
	d, err := s.asShown(r)
	if err == nil {
		if event.Action(r.FormValue("which")) == event.Redo {
			_, _, err = d.Redo()
		} else {
			_, _, err = d.Undo()
		}
	}
	if err != nil {
		s.refuse(w, r, err)
		return
	}
	http.Redirect(w, r, back(r.FormValue("back")), http.StatusSeeOther)
}

// refuse says why nothing was recorded.
func (s *Server) refuse(w http.ResponseWriter, r *http.Request, err error) {
	code := http.StatusUnprocessableEntity
	if errors.Is(err, catalog.ErrChanged) {
		code = http.StatusConflict
	}
	s.fail(w, r, code, err)
}

// fail shows an error with a way back.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, code int, err error) {
	s.show(w, code, "failed", map[string]any{
		"Lines":   strings.Split(err.Error(), "\n"),
		"Back":    back(r.FormValue("back")),
		"Changed": code == http.StatusConflict,
	})
}

// back is where to go after a form: a place on this page, never another site.
func back(to string) string {
	u, err := url.Parse(to)
	if err != nil || u.Scheme != "" || u.Host != "" || !strings.HasPrefix(u.Path, "/") || strings.HasPrefix(to, "//") ||
		strings.Contains(to, "\\") {
		return "/"
	}
	return to
}
