package model

import (
	"brightset/catalog"
	"brightset/solver"
)

// bruteCharges are the charges that some lines bring with them. more is the
// work that slots still open may send to each plater at most, nil for none.
func bruteCharges(st *catalog.State, lines []*bruteLine, more []catalog.Cents) []Charge {
	var out []Charge
	for q := range st.Platers {
		plater, sent, on := &st.Platers[q], catalog.Cents(0), false
		for _, l := range lines {
			if l.k.Plater == q && !l.k.Sent { // a lot that was sent is paid for
				sent, on = sent+l.k.Plate, true
			}
		}
		if !on {
			continue
		}
		if more != nil {
			sent += more[q]
		}
		out = append(out, Charge{ChargePlaterFreight, q, plater.Freight})
		if sent < plater.Minimum {
			out = append(out, Charge{ChargeMinimum, q, plater.Minimum - sent})
		}
	}
	bought := make([]bool, len(st.Vendors))
	for i, bundle := range st.Bundles {
		on := false
		for _, l := range lines {
			on = on || st.Pieces[l.k.Piece].Bundle == i || l.f != nil && st.Pieces[l.f.Piece].Bundle == i
		}
		if on {
			out = append(out, Charge{ChargeBundle, i, bundle.Price})
			if bundle.Vendor >= 0 {
				bought[bundle.Vendor] = true
			}
		}
	}
	for _, l := range lines {
		if piece := &st.Pieces[l.k.Piece]; piece.Vendor >= 0 && piece.Bundle < 0 {
			bought[piece.Vendor] = true
		}
	}
	for v, on := range bought {
		if on {
			out = append(out, Charge{ChargeVendorFreight, v, st.Vendors[v].Freight})
		}
	}
	return out
}

// plan writes the best set found as a plan.
func (b *brute) plan() *Plan { return brutePlan(b.st, b.best, b.trade) }

// brutePlan adds a set of lines and trades up to a plan.
func brutePlan(st *catalog.State, lines []*bruteLine, trades []int) *Plan {
	p := &Plan{Status: solver.Optimal, Has: true, Completion: 1, Charges: bruteCharges(st, lines, nil)}
	for _, t := range trades {
		p.Charges = append(p.Charges, Charge{ChargeTrade, t, -st.Trades[t].Credit})
	}
	weight, grade := 0.0, 0.0
	for _, l := range lines {
		p.Lines = append(p.Lines, Line{Slot: l.k.Slot, Choice: l.k, Fallback: l.f, Expected: l.cost})
		p.Expected += l.cost
		p.Outlay += l.k.Cash
		p.Completion *= 1 - judgeRisk(l.k, l.f)
		w := float64(st.Slots[l.k.Slot].Weight)
		weight, grade = weight+w, grade+w*float64(l.k.Grade)/100
	}
	for _, c := range p.Charges {
		p.Expected += c.Cents
		p.Outlay += c.Cents
	}
	if weight > 0 {
		p.Grade = grade / weight
	}
	p.Bound = p.Expected
	return p
}
