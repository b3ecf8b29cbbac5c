package oracle

import (
	"brightset/catalog"
)

// surelyOver says whether sums that can but grow are over the budget. The owner is quoted
// no less than the outlay.
func (s *Search) surelyOver(expected, outlay catalog.Cents) bool {
	job := &s.st.Job
	if job.BudgetOn == catalog.OnExpected {
		outlay = expected
	}
	return job.Budget.Set && outlay > job.Budget.V
}

// overBudget judges a whole set of lines with trades, given what it comes to.
func (s *Search) overBudget(expected, outlay catalog.Cents, trades []int) bool {
	job := &s.st.Job
	if job.Budget.Set && job.BudgetOn == catalog.OnQuote {
		return s.OwnerPays(s.picked, trades, s.used) > job.Budget.V+job.SpentSum
	}
	return s.surelyOver(expected, outlay)
}

// OwnerPays is what the owner is quoted, in cents: what platers and makers charge with the
// markup on plating, what is bought with the markup on parts, each in its line half up; the
// shop's own work as it is; an hourly rate for what is done at every position, packing only for
// what is or was sent to somebody; charges with their markups, half up once for all of them; credits
// as they are; what is spent with the markup on plating or on parts or none, as each sum says,
// what went into pieces that broke or got lost without any unless the terms ask for it; and the
// tax on all that.
func (r *Reader) OwnerPays(lines []*Line, trades, used []int) catalog.Cents {
	q := &r.st.Quote
	marked := func(c catalog.Cents, share catalog.Micro) catalog.Cents { return c + part(share, c) }
	more := catalog.Cents(0)
	of := [3]catalog.Cents{r.st.Job.SpentSum, 0, 0} // what is spent: on plating, on parts, without markup
	for _, s := range r.st.Job.Spent {
		to := int(s.Bears)
		if s.Piece >= 0 && s.Cents > 0 && !q.Broken &&
			(r.st.Pieces[s.Piece].Stage == catalog.StageBroken || r.st.Pieces[s.Piece].Stage == catalog.StageLost) {
			to = 2
		}
		of[0] -= s.Cents
		of[to] += s.Cents
	}
	net := of[2]
	for i, share := range []catalog.Micro{q.Plating, q.Parts} {
		if of[i] > 0 {
			of[i] = marked(of[i], share)
		}
		net += of[i]
	}
	for _, l := range lines {
		net += marked(l.K.Plate+l.K.Makers, q.Plating) + marked(l.K.Get, q.Parts) + l.K.Before - l.K.Makers + l.K.Other
		hours := q.Removal + q.Tagging + q.Fitting
		if l.K.Plater != nothing || r.st.Pieces[l.K.Piece].Sent.Was {
			hours += q.Packing
		}
		net += part(hours, or(q.Hourly, 0))
	}
	var millionths int64
	for _, c := range r.Charges(lines, trades, used) {
		share := catalog.Micro(0)
		switch c.Kind {
		case "minimum", "plater-freight":
			share = q.Plating
		case "vendor-freight", "bundle":
			share = q.Parts
		}
		net += c.Cents
		more += c.Cents / million * catalog.Cents(share)
		millionths += int64(c.Cents%million) * int64(share)
	}
	net += more + catalog.Cents((millionths+million/2)/million)
	if net <= 0 {
		return net
	}
	return marked(net, q.Tax)
}
