package bench

import (
	"context"
	"strings"
	"sync"
	"time"

	"brightset/catalog"
)

// answers keeps what was worked out for the present revision of the files; another
// revision makes all of it void, and stops what is still being worked out for the one before.
// Whoever asks for what is being worked out waits with the others; what nobody waits for any
// more is stopped, and is not kept, but for the plan, which every page needs.
type answers struct {
	mu       sync.Mutex
	revision string
	void     context.CancelFunc // of the revision
	ctx      context.Context
	known    map[question]*reply
	heavy    chan struct{} // what is worked out beside the plan: one at a time
	moves    chan struct{} // what a slider asks, likewise: it never waits behind the others
}

// question is what is asked, of which position where it is of one.
type question struct {
	what string
	slot int
}

// reply is what is known, or being worked out.
type reply struct {
	done    chan struct{} // closed when value and err are there
	value   any
	err     error
	waiting int
	stop    context.CancelFunc
}

// whatIf begins every question of a slider.
const whatIf = "what if"

// turn is where a question waits until it is worked on.
func (a *answers) turn(q question) chan struct{} {
	if strings.HasPrefix(q.what, whatIf) {
		return a.moves
	}
	return a.heavy
}

// planned is the question for the plan itself.
var planned = question{"plan", catalog.None}

// patience is how long the page waits for an answer before it takes the best there is.
const patience = 5 * time.Second

// at takes hold of the answers for a state, for which mu has to be held.
func (a *answers) at(st *catalog.State) {
	if a.known != nil && a.revision == st.Revision && st.Revision != "" {
		return
	}
	if a.void != nil {
		a.void()
	}
	if a.heavy == nil {
		a.heavy, a.moves = make(chan struct{}, mostAnswers-1), make(chan struct{}, 1)
	}
	a.revision, a.known = st.Revision, map[question]*reply{}
	a.ctx, a.void = context.WithCancel(context.Background())
}

// asking gives the answer to a question about a state, which is worked out once, within a limit of
// time that starts when its turn comes. ctx is of whoever asks: where it ends first, so does
// the waiting, with the context's error.
func asking[T any](ctx context.Context, a *answers, st *catalog.State, q question, limit time.Duration,
	work func(context.Context) (T, error)) (T, error) {
	a.mu.Lock()
	a.at(st)
	r, there := a.known[q]
	if !there {
		r = &reply{done: make(chan struct{})}
		var own context.Context
		own, r.stop = context.WithCancel(a.ctx)
		a.known[q] = r
		go r.workOut(own, a, q, limit, func(ctx context.Context) (any, error) { return work(ctx) })
	}
	r.waiting++
	a.mu.Unlock()
	defer a.leave(q, r)
	select {
	case <-r.done:
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
	if r.err != nil {
		var none T
		return none, r.err
	}
	return r.value.(T), nil
}

// workOut waits for its turn and answers.
func (r *reply) workOut(ctx context.Context, a *answers, q question, limit time.Duration,
	work func(context.Context) (any, error)) {
	defer close(r.done)
	defer r.stop()
	if q != planned {
		turn := a.turn(q)
		select {
		case turn <- struct{}{}:
			defer func() { <-turn }()
		case <-ctx.Done():
			r.err = ctx.Err()
			return
		}
	}
	own, done := context.WithTimeout(ctx, limit)
	defer done()
	if r.value, r.err = work(own); r.err == nil && ctx.Err() != nil { // stopped, not out of time
		r.err = ctx.Err()
	}
}

// leave is called by who has waited. What failed, or what nobody waits for, is asked anew next time.
func (a *answers) leave(q question, r *reply) {
	a.mu.Lock()
	defer a.mu.Unlock()
	r.waiting--
	ready := false
	select {
	case <-r.done:
		ready = true
	default:
	}
	if ready && r.err != nil || !ready && r.waiting == 0 && q != planned {
		r.stop()
		if a.known[q] == r {
			delete(a.known, q)
		}
	}
}
