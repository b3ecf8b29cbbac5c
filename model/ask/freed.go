package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// credits are what a plan is paid for its trades if lines are what becomes of its own. Where
// they leave over what it held in reserve, that may be given away too, and what doesn't come can't be
// given: then the trades are decided anew.
func credits(st *catalog.State, pl *plan.Plan, lines []plan.Line) (sum catalog.Cents) {
	if slices.ContainsFunc(st.Trades, func(t catalog.Trade) bool {
		return inUse(pl.Lines, t.Give) && !inUse(lines, t.Give)
	}) || slices.ContainsFunc(tradesMade(st, pl), func(t catalog.Trade) bool { return neverComes(st, t.Give) }) {
		return bestCredits(openTrades(st, lines))
	}
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargeTrade {
			sum -= c.Cents
		}
	}
	return sum
}

// neverComes says whether it is known that a piece doesn't come.
func neverComes(st *catalog.State, piece int) bool { return st.Pieces[piece].Chance == 0 }

// openTrades are those that lines leave room for: what they bring is hung, and nobody needs what is given.
func openTrades(st *catalog.State, lines []plan.Line) (open []catalog.Trade) {
	for _, t := range st.Trades {
		hung := slices.ContainsFunc(lines, func(l plan.Line) bool { return l.Choice.Piece == t.Get })
		if hung && !inUse(lines, t.Give) && !st.Pieces[t.Give].Gone() && !neverComes(st, t.Give) {
			open = append(open, t)
		}
	}
	return open
}

// inUse says whether lines hang a piece or hold it in reserve.
func inUse(lines []plan.Line, piece int) bool {
	return slices.ContainsFunc(lines, func(l plan.Line) bool {
		return l.Choice.Piece == piece || l.Fallback != nil && l.Fallback.Piece == piece
	})
}

// bestCredits is the most that trades bring of which each piece is in one at most: by another
// trade at a time, as long as that brings more, for which some of those made may
// have to give way to each other (best augmenting paths of an assignment; from memory).
func bestCredits(open []catalog.Trade) (sum catalog.Cents) {
	made := map[int]catalog.Trade{} // by the piece taken
	for {
		more, last, instead := bestStep(open, made)
		if more <= 0 {
			return sum
		}
		sum += more
		for again := true; again; {
			gives := last.Give
			made[last.Get] = last
			last, again = instead[gives]
		}
	}
}

// bestStep is by how much one more trade raises the credits at most: the last of a chain of trades to
// make, and for each piece given in one that is made already, which is made in place of that.
func bestStep(open []catalog.Trade, made map[int]catalog.Trade) (more catalog.Cents, last catalog.Trade,
	instead map[int]catalog.Trade) {
	instead = map[int]catalog.Trade{}
	free := map[int]catalog.Cents{} // by a piece: what having it to give brings before it is given
	for _, t := range open {
		free[t.Give] = 0
	}
	for _, t := range made {
		delete(free, t.Give)
	}
	for changed := true; changed; {
		changed = false
		for _, t := range open {
			before, ok := free[t.Give]
			old, taken := made[t.Get]
			switch now := before + t.Credit; {
			case !ok || taken && old.Give == t.Give:
			case !taken && now > more:
				more, last = now, t
			case taken:
				if best, known := free[old.Give]; !known || now-old.Credit > best {
					free[old.Give], instead[old.Give], changed = now-old.Credit, t, true
				}
			}
		}
	}
	return more, last, instead
}
