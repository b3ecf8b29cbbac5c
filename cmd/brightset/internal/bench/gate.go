package bench

import (
	"net/http"
	"strings"
	"time"
)

// gate bounds what is worked on at once. Whoever comes when it is full waits, and who comes
// when too many wait is told that it is busy.
type gate struct {
	inside  chan struct{}
	waiting chan struct{}
	patient time.Duration
}

func newGate(inside, waiting int, patient time.Duration) *gate {
	return &gate{make(chan struct{}, inside), make(chan struct{}, inside+waiting), patient}
}

// enter waits for a place; leave gives it back. It is false where there is none in time.
func (g *gate) enter(r *http.Request) (leave func(), ok bool) {
	select {
	case g.waiting <- struct{}{}:
	default:
		return nil, false
	}
	timer := time.NewTimer(g.patient)
	defer timer.Stop()
	select {
	case g.inside <- struct{}{}:
		return func() { <-g.inside; <-g.waiting }, true
	case <-timer.C:
	case <-r.Context().Done():
	}
	<-g.waiting
	return nil, false
}

// Limits of what is worked on at once.
const (
	mostAnswers = 2 // that solve something
	mostWaiting = 30
	mostPhotos  = 1 // decoded at once: a photo of a camera is 180 MB when it is
	mostQueued  = 100
	queueTime   = 20 * time.Second
)

// through puts a page behind a gate.
func (g *gate) through(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		leave, ok := g.enter(r)
		if !ok {
			busy(w)
			return
		}
		defer leave()
		next(w, r)
	}
}

// noForeign refuses what another site caused, looking included: a page elsewhere must not
// make this one work. A browser says so; what says nothing is no browser that can be made to.
func noForeign(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if site := r.Header.Get("Sec-Fetch-Site"); site == "cross-site" || site == "same-site" {
			http.Error(w, "another site asked for this: type the address instead", http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// maxQuery is how long the part of an address after the question mark may be.
const maxQuery = 2 << 10

// shortQueries refuses addresses that no page of ours asks for.
func shortQueries(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if len(r.URL.RawQuery) > maxQuery || len(r.URL.Path) > maxQuery {
			http.Error(w, "this address is too long", http.StatusRequestURITooLong)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// noListings hides what lies in a folder from who only knows the folder's name.
func noListings(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "/") || r.URL.Path == "" {
			http.NotFound(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}
