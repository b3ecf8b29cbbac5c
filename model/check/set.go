package check

import (
	"fmt"
	"math"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// checkPieces checks that no piece is used more often than it is there.
func (j *audit) checkPieces() {
	used := j.piecesUsed()
	for p := range j.st.Pieces {
		if piece := &j.st.Pieces[p]; used[p] > piece.Quantity {
			j.report("piece", fmt.Sprintf("piece %q", piece.Key()), "is used %d times, but is there %d times", used[p],
				piece.Quantity)
		}
	}
}

// piecesUsed counts how many of each piece are chosen or held in reserve.
func (j *audit) piecesUsed() []int {
	used := make([]int, len(j.st.Pieces))
	for _, l := range j.lines {
		used[l.k.Piece] += j.st.Slots[l.slot].Quantity
		switch {
		case l.f == nil:
		case l.with != nil:
			if l.slot < l.with.slot { // once for both
				used[l.f.Piece] += max(j.st.Slots[l.slot].Quantity, j.st.Slots[l.with.slot].Quantity)
			}
		default:
			used[l.f.Piece] += j.st.Slots[l.slot].Quantity
		}
	}
	return used
}

// checkMean checks the weighted mean asked of the set.
func (j *audit) checkMean() {
	mean := j.st.Job.Target.Mean
	if !mean.Set {
		return
	}
	sum := int64(0)
	for _, l := range j.lines {
		sum += int64(j.st.Slots[l.slot].Weight) * int64(l.k.Grade-mean.V)
	}
	if sum < 0 {
		j.report("mean", "plan", "the weighted mean is below %s", hundredths(mean.V))
	}
}

// checkMatches checks every two chosen pieces that are seen together.
func (j *audit) checkMatches() {
	for m := range j.st.Matches {
		match := &j.st.Matches[m]
		for a, first := range j.lines {
			for _, second := range j.lines[a+1:] {
				if slices.Contains(match.Slots, first.slot) && slices.Contains(match.Slots, second.slot) {
					j.checkPair(match, first.k, second.k)
				}
			}
		}
	}
}

func (j *audit) checkPair(match *catalog.Match, a, b *plan.Choice) {
	where := fmt.Sprintf("match %q", match.ID)
	pair := fmt.Sprintf("%s and %s", j.slotName(a.Slot), j.slotName(b.Slot))
	if match.GradeWithin.Set && distance(a.Grade, b.Grade) > match.GradeWithin.V {
		j.report("match-grade", where, "grades of %s are %s apart", pair,
			hundredths(distance(a.Grade, b.Grade)))
	}
	if drift := lotsDrift(j.st, a, b); match.ToneWithin.Set && distance(a.Tone, b.Tone)+drift > match.ToneWithin.V {
		j.report("match-tone", where, "tones of %s are %s apart, and their lots may be by %s", pair,
			hundredths(distance(a.Tone, b.Tone)), hundredths(drift))
	}
	if qa, qb := platedBy(j.st, a), platedBy(j.st, b); match.SamePlater && qa != catalog.None &&
		qb != catalog.None && qa != qb {
		j.report("match-plater", where, "%s are plated by two platers", pair)
	}
	if match.FreshAlike && a.Fresh != b.Fresh {
		j.report("match-fresh", where, "one of %s is freshly finished, the other isn't", pair)
	}
}

// checkCompletion checks the chance that no slot needs a rescue.
func (j *audit) checkCompletion() {
	chance, sum := 1.0, int64(0)
	for _, l := range j.lines {
		if l.with != nil {
			if l.slot < l.with.slot {
				risk, weight := pairRisk(l)
				chance, sum = chance*(1-risk), sum+weight
			}
			continue
		}
		risk := riskOf(l.k, l.f)
		chance *= 1 - risk
		if risk < 1 {
			sum += riskWeight(l.k, l.f)
		}
	}
	if !(math.Abs(j.plan.Completion-chance) <= 1e-9) {
		j.report("figure-completion", "plan", "completion is %g, but comes to %g", j.plan.Completion, chance)
	}
	asked := j.st.Job.Completion
	if !asked.Set || asked.V <= 0 {
		return
	}
	if limit := riskLimit(j.st, asked.V); sum > limit {
		j.report("completion", "plan", "the chance of no rescue is %g, asked is %g", chance, float64(asked.V)/1e6)
	}
}

// riskLimit is the right side of the completion row: one unit a slot is
// allowed for rounding.
func riskLimit(st *catalog.State, asked catalog.Micro) int64 {
	return int64(math.Floor(-1e6*math.Log(float64(asked)/1e6))) + int64(len(st.Slots))
}

// checkTrades checks the conditions of every trade the plan makes.
func (j *audit) checkTrades() {
	used, chosen := j.piecesUsed(), make([]bool, len(j.st.Pieces))
	for _, l := range j.lines {
		chosen[l.k.Piece] = true
	}
	made, given, taken := map[int]bool{}, map[int]bool{}, map[int]bool{}
	for _, c := range j.plan.Charges {
		if c.Kind != plan.ChargeTrade || c.Of < 0 || c.Of >= len(j.st.Trades) {
			continue // an unknown trade is named with the charges
		}
		t := &j.st.Trades[c.Of]
		where := fmt.Sprintf("trade %q", t.ID)
		if made[c.Of] {
			j.report("trade-once", where, "is made more than once")
		} else if given[t.Give] || taken[t.Get] {
			j.report("trade-once", where, "a piece of it is traded more than once")
		}
		if !chosen[t.Get] {
			j.report("trade-get", where, "piece %q is taken, but hung in no slot", j.st.Pieces[t.Get].ID)
		}
		if isGone(&j.st.Pieces[t.Give]) {
			j.report("trade-give", where, "piece %q is given away, but is not there any more", j.st.Pieces[t.Give].ID)
		}
		if used[t.Give] > 0 {
			j.report("trade-give", where, "piece %q is given away, but needed", j.st.Pieces[t.Give].ID)
		}
		made[c.Of], given[t.Give], taken[t.Get] = true, true, true
	}
}
