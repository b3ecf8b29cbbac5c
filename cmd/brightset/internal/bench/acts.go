package bench

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
	"brightset/cmd/brightset/internal/record"
)

// do records what a form says. The form carries what its page showed: if somebody was at the same
// things since, nothing is recorded. A request that comes twice is answered with what it did.
func (s *Server) do(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.fail(w, r, http.StatusBadRequest, err)
		return
	}
	name := r.PostForm.Get("action")
	a, ok := record.Find(name)
	if !ok && name != string(event.Keep) {
		s.fail(w, r, http.StatusBadRequest, fmt.Errorf("nothing is called %q", name))
		return
	}
	if name == string(event.Keep) { // it may have to be worked out first, while others go on
		if d, err := s.recorder(); err == nil {
			s.plan(r.Context(), d.State)
		}
	}
	s.writing.Lock()
	defer s.writing.Unlock()
	_, seq, err := s.try(r, requestID(r.URL.Path, r.PostForm), func(d *catalog.Recorder) (catalog.Act, error) {
		if a == nil {
			return s.keep(r.Context(), d)
		}
		f := facts(r.PostForm)
		if f.Target == "" {
			f.Target = newName(d.State, a.Name, f.Name)
		}
		return a.Deed(d, f)
	})
	s.reply(w, r, seq, err)
}

// keep is the act of keeping the plan of a state.
func (s *Server) keep(ctx context.Context, d *catalog.Recorder) (catalog.Act, error) {
	p, err := s.plan(ctx, d.State)
	if err != nil {
		return catalog.Act{}, err
	}
	if !p.Has {
		return catalog.Act{}, fmt.Errorf("there is no plan to keep")
	}
	act := record.Keep(d, p, nil)
	if !d.Changes(&act) {
		return act, fmt.Errorf("this plan is kept already")
	}
	return act, nil
}

// try has an act recorded under the id of a request, for which writing has to be locked, and gives the
// number of its entry. The recorder is nil where the request came before and its entry is that one.
func (s *Server) try(r *http.Request, id string,
	act func(*catalog.Recorder) (catalog.Act, error)) (*catalog.Recorder, int, error) {
	d, about, err := s.asShown(r)
	if d != nil {
		if e := recorded(d, id); e != nil {
			return nil, e.Seq, nil
		}
	}
	if err != nil {
		return nil, 0, err
	}
	deed, err := act(d)
	if err == nil {
		err = about.clash(&deed)
	}
	if err == nil {
		deed.ID = id
		_, err = d.Record(deed)
	}
	return d, lastOf(d), err
}

// reply says what came of an act.
func (s *Server) reply(w http.ResponseWriter, r *http.Request, seq int, err error) {
	var clash *record.Clash
	switch {
	case errors.As(err, &clash):
		s.show(w, http.StatusUnprocessableEntity, "failed", map[string]any{"Lines": clash.Against,
			"Back": back(r.FormValue("back")), "Again": r.PostForm, "To": r.URL.Path})
	case err != nil:
		s.refuse(w, r, err)
	default:
		done(w, r, "did", seq)
	}
}

// turn takes the last action back, or brings it back.
func (s *Server) turn(w http.ResponseWriter, r *http.Request) {
	s.writing.Lock()
	defer s.writing.Unlock()
	d, about, err := s.asShown(r)
	if err == nil && about != nil {
		err = catalog.ErrChanged // the last action is not the one that was shown
	}
	key, of := "undone", journal.Entry{}
	if err == nil {
		if event.Action(r.FormValue("which")) == event.Redo {
			key = "did"
			_, of, err = d.Redo()
		} else {
			_, of, err = d.Undo()
		}
	}
	if err != nil {
		s.refuse(w, r, err)
		return
	}
	done(w, r, key, of.Seq)
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
		"Lines":   strings.Split(atPage(err.Error()), "\n"),
		"Back":    back(r.FormValue("back")),
		"Changed": code == http.StatusConflict,
		"Typed":   filledIn(r), "To": r.URL.Path, "Hidden": hidden(r),
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
