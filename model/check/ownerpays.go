package check

import (
	"math/big"

	"brightset/catalog"
	"brightset/model/plan"
)

// ownerPays is what the owner is quoted for the lines: every position with the markups on
// what is charged and bought for it and the labour, the charges with theirs, less credits as
// they are, what is spent already with those it bears, and tax on all that.
func (j *audit) ownerPays() catalog.Cents {
	q := &j.st.Quote
	net := catalog.Cents(0)
	for _, l := range j.lines {
		hours := q.Removal + q.Tagging + q.Fitting
		if l.k.Plater != catalog.None || j.st.Pieces[l.k.Piece].Sent.Was { // it has to be packed, or was
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
	net += j.st.Job.SpentSum + j.markupsSpent()
	if net <= 0 {
		return net
	}
	return net + markup(q.Tax, net)
}

// markupsSpent is what the owner is charged on top of what is spent: nothing on what went into
// pieces that broke or got lost, where that bears no markup.
func (j *audit) markupsSpent() catalog.Cents {
	parts, unmarked := catalog.Cents(0), catalog.Cents(0)
	for _, s := range j.st.Job.Spent {
		vain := false
		if s.Piece != catalog.None && s.Cents > 0 && !j.st.Quote.Broken {
			stage := j.st.Pieces[s.Piece].Stage
			vain = stage == catalog.StageLost || stage == catalog.StageBroken
		}
		if vain || s.Bears == catalog.BearsNone {
			unmarked += s.Cents
		} else if s.Bears == catalog.BearsParts {
			parts += s.Cents
		}
	}
	plating := j.st.Job.SpentSum - unmarked - parts
	return markup(j.st.Quote.Parts, max(0, parts)) + markup(j.st.Quote.Plating, max(0, plating))
}

// markup is a share, in millionths, of a sum, half up.
func markup(share catalog.Micro, sum catalog.Cents) catalog.Cents {
	return wholeCents(new(big.Int).Mul(big.NewInt(int64(share)), big.NewInt(int64(sum))))
}

func wholeCents(millionths *big.Int) catalog.Cents {
	half := new(big.Int).Add(millionths, big.NewInt(500_000))
	return catalog.Cents(half.Div(half, big.NewInt(1_000_000)).Int64())
}
