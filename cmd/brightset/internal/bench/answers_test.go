package bench

import (
	"context"
	"net/http"
	"strings"
	"sync"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
)

func loaded(t *testing.T, s *Server) *catalog.State {
	t.Helper()
	st, err := catalog.Load(s.opt.Job, catalog.Options{Today: s.opt.Now()})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// TestGoneAway: who asks and goes away before the answer is there leaves no half answer to
// those who ask after him, and nothing that goes on for nobody.
func TestGoneAway(t *testing.T) {
	s, _ := server(demo(t), "", "")
	st := loaded(t, s)
	stay := context.Background()
	p, err := s.plan(stay, st) // it is known before he asks
	if err != nil {
		t.Fatal(err)
	}
	gone, leave := context.WithCancel(stay)
	stopped := make(chan struct{})
	_, err = asking(gone, &s.answers, st, question{"slow", 0}, patience, func(ctx context.Context) (int, error) {
		leave()
		<-ctx.Done()
		close(stopped)
		return 1, nil // half an answer
	})
	<-stopped
	if err == nil {
		t.Error("who has gone is answered")
	}
	n, err := asking(stay, &s.answers, st, question{"slow", 0}, patience,
		func(context.Context) (int, error) { return 2, nil })
	if err != nil || n != 2 {
		t.Error("half an answer is kept for everybody", n, err)
	}
	s.curveOf(gone, st)
	_, c, err := s.curveOf(stay, st)
	if err != nil || len(c.Points) < 2 {
		t.Error("who stays is given half the curve", err)
	}
	if _, again, _ := s.curveOf(stay, st); again != c {
		t.Error("the curve is worked out twice")
	}
	if again, _ := s.plan(stay, st); again != p {
		t.Error("the plan is worked out twice")
	}
}

// TestAnotherRevision: what is being worked out for files that are no more is stopped.
func TestAnotherRevision(t *testing.T) {
	s, _ := server(demo(t), "", "")
	st := loaded(t, s)
	started, stopped := make(chan struct{}), make(chan struct{})
	go asking(context.Background(), &s.answers, st, question{"slow", 0}, patience,
		func(ctx context.Context) (int, error) {
			close(started)
			<-ctx.Done()
			close(stopped)
			return 0, nil
		})
	<-started
	other := st.Clone()
	other.Revision = "other"
	if n, err := asking(context.Background(), &s.answers, other, question{"slow", 0}, patience,
		func(context.Context) (int, error) { return 2, nil }); err != nil || n != 2 {
		t.Error(n, err)
	}
	<-stopped
}

// TestTwoAtATime: beside the plan one thing is worked out at a time, however many are asked for,
// and one question once, however many ask it.
func TestTwoAtATime(t *testing.T) {
	s, _ := server(demo(t), "", "")
	st := loaded(t, s)
	var mu sync.Mutex
	inside, most, runs := 0, 0, 0
	var wait sync.WaitGroup
	for i := range 40 {
		wait.Go(func() {
			asking(context.Background(), &s.answers, st, question{"one", i % 4}, patience,
				func(ctx context.Context) (int, error) {
					mu.Lock()
					inside++
					runs, most = runs+1, max(most, inside)
					mu.Unlock()
					s.plan(ctx, st)
					mu.Lock()
					inside--
					mu.Unlock()
					return 0, nil
				})
		})
	}
	wait.Wait()
	if most != 1 || runs != 4 {
		t.Errorf("%d at a time, %d in all", most, runs)
	}
}

// TestOnlyWhatIsShown: a page has the plan worked out and nothing else; what the set comes to with
// other pieces is asked for one position, after the page.
func TestOnlyWhatIsShown(t *testing.T) {
	s, _ := server(demo(t), "", "")
	h := s.Handler()
	for _, path := range []string{"/?slot=crest", "/plan", "/papers", "/what-if"} {
		if w := get(h, path); w.Code != http.StatusOK {
			t.Fatal(path, w.Code)
		}
		if len(s.answers.known) != 1 {
			t.Errorf("%s works out %d answers", path, len(s.answers.known))
		}
	}
	w := get(h, "/costs.json?slot=crest")
	if text := w.Body.String(); w.Code != http.StatusOK || !strings.Contains(text, `"key":"job:crest-1"`) ||
		strings.Contains(text, "grille") {
		t.Error(w.Code, text)
	}
	if w := get(h, "/locks.json?slot=crest"); !strings.Contains(w.Body.String(), "no-cheap-crest") {
		t.Error(w.Code, w.Body)
	}
	for _, path := range []string{"/turns", "/curve", "/stops", "/others", "/why?slot=crest"} {
		if w := get(h, path); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "<") {
			t.Error(path, w.Code)
		}
	}
}

// TestBeforeThePlan: a page doesn't wait for a plan that takes its time; it has everything that can
// be done, says that the plan is being worked out, and has it once it is there.
func TestBeforeThePlan(t *testing.T) {
	s, _ := server(demo(t), "", "")
	h := s.Handler()
	known, err := s.plan(context.Background(), loaded(t, s))
	if err != nil {
		t.Fatal(err)
	}
	s.glance = 1
	slow := &reply{done: make(chan struct{}), stop: func() {}, value: (*plan.Plan)(nil)}
	s.answers.known[planned] = slow
	for _, path := range []string{"/?slot=crest", "/plan", "/papers", "/what-if", "/journal", "/new"} {
		w := get(h, path)
		if text := w.Body.String(); w.Code != http.StatusOK || !strings.Contains(text, "is being worked out") ||
			!strings.Contains(text, `data-pending="`) || strings.Contains(text, "Nothing meets") {
			t.Error(path, w.Code, text)
		}
	}
	if text := get(h, "/?slot=crest").Body.String(); !strings.Contains(text, "Found something") {
		t.Error("nothing can be done before the plan is there")
	}
	slow.value = known
	close(slow.done)
	s.glance = patience
	if w := get(h, "/ready"); w.Code != http.StatusNoContent {
		t.Error(w.Code)
	}
	if text := get(h, "/?slot=crest").Body.String(); strings.Contains(text, "data-pending") {
		t.Error("the plan is there, and the page doesn't show it")
	}
}
