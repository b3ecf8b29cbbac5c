package check

import (
	"math/big"

	"brightset/catalog"
	"brightset/model/plan"
)

// ownerPays is what the owner is quoted for the lines: every position with the markups on
// what is charged and bought for it and the labour, the charges with theirs, less credits as
// they are, what is spent already, and tax on all that.
func (j *audit) ownerPays() catalog.Cents {
	q := &j.st.Quote
	net := catalog.Cents(0)
	for _, l := range j.lines {
		hours := q.Removal + q.Tagging + q.Fitting
		if l.k.Plater != catalog.None { // it has to be packed
			hours += q.Packing
		}
		net += l.k.Cash + markup(q.Plating, l.k.Plate+l.k.Makers) + markup(q.Parts, l.k.Get) +
			markup(hours, q.Hourly.Or(0))
	}
	parts := new(big.Int) // markups on charges, in millionths of a cent
	for key, cents := range j.chargesDue() {
		share := q.Parts
		if key.kind == plan.ChargeMinimum || key.kind == plan.ChargePlaterFreight {
			share = q.Plating
		}
		net += cents
		parts.Add(parts, new(big.Int).Mul(big.NewInt(int64(share)), big.NewInt(int64(cents))))
	}
	net += wholeCents(parts)
	for t := range j.tradesMade() {
		net -= j.st.Trades[t].Credit
	}
	net += j.st.Job.SpentSum
	if spent := j.st.Job.SpentSum - j.spentInVain(); spent > 0 {
		net += markup(q.Plating, spent)
	}
	if net <= 0 {
		return net
	}
	return net + markup(q.Tax, net)
}

// spentInVain is what went into pieces that broke or got lost, where it bears no markup.
func (j *audit) spentInVain() (sum catalog.Cents) {
	for _, s := range j.st.Job.Spent {
		if s.Piece == catalog.None || s.Cents < 0 || j.st.Quote.Broken {
			continue
		}
		switch j.st.Pieces[s.Piece].Stage {
		case catalog.StageLost, catalog.StageBroken:
			sum += s.Cents
		}
	}
	return sum
}

// markup is a share, in millionths, of a sum, half up.
func markup(share catalog.Micro, sum catalog.Cents) catalog.Cents {
	return wholeCents(new(big.Int).Mul(big.NewInt(int64(share)), big.NewInt(int64(sum))))
}

func wholeCents(millionths *big.Int) catalog.Cents {
	half := new(big.Int).Add(millionths, big.NewInt(500_000))
	return catalog.Cents(half.Div(half, big.NewInt(1_000_000)).Int64())
}
