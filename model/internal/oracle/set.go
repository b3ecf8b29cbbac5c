package oracle

import (
	"math/big"

	"brightset/catalog"
)

// What concerns several lines at once.

// Charge is a sum that belongs to no single line. Kind is the design's word for it.
type Charge struct {
	Kind  string
	Of    int
	Cents catalog.Cents
}

// calls is what a set of lines calls for: lots, freights and bundles.
type calls struct {
	lots    []bool // by plater
	sent    []catalog.Cents
	vendors []bool
	bundles []int // how many of each: one, or as many boxes as hold what comes out of them
}

// callsOf gathers what lines call for. A lot that was sent is paid for. used is how many of
// each piece they use, nil if each of them uses its own.
func (r *Reader) callsOf(lines []*Line, used []int) calls {
	c := calls{make([]bool, len(r.st.Platers)), make([]catalog.Cents, len(r.st.Platers)),
		make([]bool, len(r.st.Vendors)), make([]int, len(r.st.Bundles))}
	if used == nil {
		used = make([]int, len(r.st.Pieces))
		for _, l := range lines {
			used[l.K.Piece] += r.st.Slots[l.K.Slot].Quantity
			if l.F != nil {
				used[l.F.Piece] += r.st.Slots[l.K.Slot].Quantity
			}
		}
	}
	for p, n := range used {
		if b := r.st.Pieces[p].Bundle; b >= 0 && r.st.Bundles[b].Box > 0 {
			for c.bundles[b] = 0; c.bundles[b]*r.st.Bundles[b].Box < n; {
				c.bundles[b]++
			}
		}
	}
	for _, l := range lines {
		if q := l.K.Plater; q >= 0 && !l.K.Sent {
			c.lots[q], c.sent[q] = true, c.sent[q]+l.K.Plate
		}
		k := &r.st.Pieces[l.K.Piece]
		if k.Bundle < 0 && k.Vendor >= 0 {
			c.vendors[k.Vendor] = true
		}
		r.bundle(&c, k)
		if l.F != nil { // its way is in the line
			r.bundle(&c, &r.st.Pieces[l.F.Piece])
		}
	}
	return c
}

func (r *Reader) bundle(c *calls, p *catalog.Piece) {
	if p.Bundle < 0 {
		return
	}
	c.bundles[p.Bundle] = max(c.bundles[p.Bundle], 1)
	if v := r.st.Bundles[p.Bundle].Vendor; v >= 0 {
		c.vendors[v] = true
	}
}

// charges are what the calls come to. more is the work that may yet be sent to each plater,
// nil for none.
func (r *Reader) charges(c calls, more []catalog.Cents) (out []Charge) {
	for q, on := range c.lots {
		if !on {
			continue
		}
		plater, missing := &r.st.Platers[q], r.st.Platers[q].Minimum-c.sent[q]
		if more != nil {
			missing -= more[q]
		}
		out = append(out, Charge{"plater-freight", q, plater.Freight})
		if missing > 0 {
			out = append(out, Charge{"minimum", q, missing})
		}
	}
	for b, n := range c.bundles {
		if n > 0 {
			out = append(out, Charge{"bundle", b, catalog.Cents(n) * r.st.Bundles[b].Price})
		}
	}
	for v, on := range c.vendors {
		if on {
			out = append(out, Charge{"vendor-freight", v, r.st.Vendors[v].Freight})
		}
	}
	return out
}

// Charges are all that lines and trades bring with them; used as in callsOf.
func (r *Reader) Charges(lines []*Line, trades, used []int) []Charge {
	out := r.charges(r.callsOf(lines, used), nil)
	for _, t := range trades {
		out = append(out, Charge{"trade", t, -r.st.Trades[t].Credit})
	}
	return out
}

func sum(charges []Charge) (cents catalog.Cents) {
	for _, c := range charges {
		cents += c.Cents
	}
	return cents
}

// match says whether two chosen pieces may be seen together.
func (r *Reader) match(a, b *Choice) bool {
	for i := range r.st.Matches {
		m := &r.st.Matches[i]
		if !within(m.Slots, a.Slot) || !within(m.Slots, b.Slot) {
			continue
		}
		if apart(a.Grade, b.Grade, m.GradeWithin) || apart(a.Tone, b.Tone, r.lessDrift(m.ToneWithin, a, b)) ||
			m.FreshAlike && a.Fresh != b.Fresh {
			return false
		}
		if x, y := r.platedBy(a), r.platedBy(b); m.SamePlater && x >= 0 && y >= 0 && x != y {
			return false
		}
	}
	return true
}

// lessDrift is how far two tones may be apart where those of two lots of one plater drift:
// by so much less, unless the two went, or go, together, or have both been seen since.
func (r *Reader) lessDrift(within catalog.Val[catalog.Centi], a, b *Choice) catalog.Val[catalog.Centi] {
	seen := func(c *Choice) bool { return c.Plater < 0 }
	went := func(c *Choice) bool { return seen(c) || c.Sent }
	q := r.platedBy(a)
	if q < 0 || q != r.platedBy(b) || seen(a) && seen(b) {
		return within
	}
	together := went(a) == went(b)
	if went(a) && went(b) {
		together = r.st.Pieces[a.Piece].Sent.Lot == r.st.Pieces[b.Piece].Sent.Lot
	}
	if !together {
		within.V -= r.st.Platers[q].Drift
	}
	return within
}

func apart(x, y catalog.Centi, tolerance catalog.Val[catalog.Centi]) bool {
	return tolerance.Set && (x > y+tolerance.V || y > x+tolerance.V)
}

// trades says whether a set of trades, as bits, can all be made: each takes a piece that
// hangs and gives one that is there and that nobody needs, and no piece goes or comes twice.
func (r *Reader) trades(set int, lines []*Line, used []int) (made []int, credit catalog.Cents, ok bool) {
	moved := map[[2]int]bool{}
	for t := range r.st.Trades {
		if set>>t&1 == 0 {
			continue
		}
		trade, hangs := &r.st.Trades[t], false
		for _, l := range lines {
			hangs = hangs || l.K.Piece == trade.Get
		}
		give, get := [2]int{0, trade.Give}, [2]int{1, trade.Get}
		if !hangs || used[trade.Give] > 0 || gone(&r.st.Pieces[trade.Give]) || moved[give] || moved[get] {
			return nil, 0, false
		}
		moved[give], moved[get] = true, true
		made, credit = append(made, t), credit+trade.Credit
	}
	return made, credit, true
}

// CompletionLimit is floor(-1e6 ln completion) + number of slots.
func CompletionLimit(asked catalog.Micro, slots int) int64 {
	return down(millionLn(big.NewInt(int64(asked)), big.NewInt(million))) + int64(slots)
}

// Completion is the chance that no slot needs a rescue: the product over lines.
func Completion(lines []*Line) float64 {
	chance := 1.0
	for _, l := range lines {
		chance *= float64(million*million-rescued(l.K, l.F)) / (million * million)
	}
	return chance
}
