package paper

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Spare is what a plan leaves unused of a piece.
type Spare struct {
	Piece    int
	Quantity int // how many are left
	Side     catalog.Side
	Vendor   int  // whose it is, catalog.None unless a vendor's
	Trade    int  // the trade it is given in, catalog.None if none
	Paid     bool // it comes out of a bundle or a box that is bought all the same
	Advice   string
}

// Leftover lists the pieces that no line of the plan uses, as planned or in
// reserve, in the state's order, and what to do with each: of what is sold by the box, those
// that are bought all the same before those that stay with the seller.
func Leftover(pl *plan.Plan) []Spare {
	used := plan.Used(pl.Of, pl.Lines)
	given := map[int]int{}
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargeTrade {
			given[pl.Of.Trades[c.Of].Give] = c.Of
		}
	}
	bought := plan.BundlesOf(pl.Of, pl.Lines)
	var spares []Spare
	for i := range pl.Of.Pieces {
		p := &pl.Of.Pieces[i]
		left := choice.PieceCount(p) - used[i]
		if left <= 0 || p.Gone() {
			continue
		}
		s := Spare{Piece: i, Quantity: left, Side: p.Side, Vendor: choice.VendorOf(p), Trade: catalog.None}
		if t, ok := given[i]; ok {
			s.Trade = t
		}
		over := left // of them, paid for
		if p.Bundle == catalog.None || bought[p.Bundle] == 0 {
			over = 0
		} else if box := pl.Of.Bundles[p.Bundle].Box; box > 0 {
			over = min(left, bought[p.Bundle]*box-used[i])
		}
		for _, part := range []struct {
			n    int
			paid bool
		}{{over, true}, {left - over, false}} {
			if part.n > 0 {
				s.Quantity, s.Paid = part.n, part.paid
				s.Advice = s.advice(pl.Of)
				spares = append(spares, s)
			}
		}
	}
	return spares
}

// JobSpare is a piece that none of several plans uses, with a job whose state has it.
type JobSpare struct {
	Job int
	Spare
}

// CommonLeftover lists what several plans leave unused: of the shop's pieces, which each of
// them may use, what is left by all together, each once.
func CommonLeftover(plans []*plan.Plan) []JobSpare {
	used := map[string]int{}
	for _, pl := range plans {
		for i, n := range plan.Used(pl.Of, pl.Lines) {
			used[pl.Of.Pieces[i].Key()] += n
		}
	}
	var all []JobSpare
	at := map[string]int{}
	for j, pl := range plans {
		for _, s := range Leftover(pl) {
			p := &pl.Of.Pieces[s.Piece]
			if !p.InShop {
				all = append(all, JobSpare{j, s})
				continue
			}
			n, known := at[p.Key()]
			s.Quantity = choice.PieceCount(p) - used[p.Key()]
			switch {
			case s.Quantity <= 0:
			case !known:
				at[p.Key()] = len(all)
				all = append(all, JobSpare{j, s})
			case (s.Paid || s.Trade != catalog.None) && !all[n].Paid: // it is that job that buys or gives it
				all[n] = JobSpare{j, s}
			}
		}
	}
	return all
}

// advice is what a restorer does with a piece that is left. Common practice, no
// published source.
func (s *Spare) advice(st *catalog.State) string {
	p := &st.Pieces[s.Piece]
	switch {
	case p.AtPlater() && p.Stage == catalog.StagePlated:
		return "at " + st.Platers[p.Sent.Plater].ID + ", plated: fetch it and keep it as a spare"
	case p.AtPlater():
		return "at " + st.Platers[p.Sent.Plater].ID + ": take it back, or let him finish and keep it as a spare"
	case s.Trade != catalog.None:
		return "goes out in trade " + st.Trades[s.Trade].ID
	case s.Paid && st.Bundles[p.Bundle].Box > 0:
		return "comes with the box: keep as spares"
	case s.Paid:
		return "comes with the bundle: keep until the set hangs, then sell"
	case s.Side == catalog.Customers:
		return "keep until the set hangs: a junk piece serves as a pattern; then back to the customer"
	case s.Side == catalog.Shops && takenOut(p):
		return "paid for, out of the drawer: keep it as a spare until the set hangs"
	case s.Side == catalog.Shops:
		return "stays in the drawer until the set hangs"
	}
	return "don't buy; ask the seller to hold it until the pieces are back from the plater"
}
