package solver

// guess is a total that the best one is likely to be below, while what is in hand is far
// from the bound: the search looks for nothing at or above it, which leaves out most
// columns that no good solution has. What it finds below is as proven as without a guess;
// where it finds nothing, no total is below the guess, and the next one is higher.
type guess struct {
	limit int64 // no solution of interest has a total at or above this, guess or no
	low   int64 // the bound of the root
	step  int64 // how far above it the next guess is
	once  bool  // the first guess is the only one

	in   *instance // the root, before anything was left out for a guess
	y    *duals
	pool *pool
}

// A guess is made where what is in hand is more than guessFrom parts in a thousand above the
// bound. The first is guessFirst of them above it, each further one guessMore times as far.
// Where only what is below a total counts there mostly is nothing, and each guess is a root for
// nothing: then guessOnce is the first and the last.
const (
	guessFrom  = 3
	guessFirst = 2
	guessMore  = 3
	guessOnce  = 6
)

// venture makes the first guess, the root's relaxation being known.
func (s *search) venture(r *relaxation, pool *pool) {
	low := r.bound.lower()
	part := magnitude(low) / 1000
	if s.leave.guesses || s.decides() || s.best.upper(s.other)-low <= guessFrom*part {
		return
	}
	s.guess = &guess{limit: s.other, low: low, step: max(1, guessFirst*part), once: s.ch.Below != nil,
		in: s.in, y: r.duals, pool: pool.clone()}
	if s.guess.once {
		s.guess.step = max(1, guessOnce*part)
	}
	s.raise()
}

// raise makes the next guess, or goes without where it would be no lower than what is in
// hand.
func (s *search) raise() {
	g := s.guess
	s.other = min(g.limit, g.low+g.step)
	if s.other >= s.best.upper(g.limit) {
		s.other = g.limit
	}
	if g.step *= guessMore; g.once {
		g.step = g.limit - g.low
	}
}

// wrong says whether a guess was made, and there is nothing below it.
func (s *search) wrong() bool {
	return s.guess != nil && s.other < s.guess.limit && !s.ended && !(s.best.has && s.best.total < s.other)
}

// again goes back to the root with a higher guess. No total is below the one before; what
// else was said of the bound holds below that guess alone.
func (s *search) again() (*duals, *pool) {
	s.bound = s.other
	s.in, s.queue = s.guess.in, nil
	s.raise()
	return s.guess.y, s.guess.pool.clone()
}
