package check

import (
	"fmt"
	"math"

	"brightset/catalog"
	"brightset/model/plan"
)

// chargeKey names one charge.
type chargeKey struct {
	kind plan.ChargeKind
	of   int
}

// checkSums adds the plan up again and checks the budget and the bound.
func (j *audit) checkSums() {
	j.checkCharges()
	expected, outlay, keeps := catalog.Cents(0), catalog.Cents(0), catalog.Cents(0)
	for _, l := range j.lines {
		expected += lineExpected(j.st, l)
		outlay += l.k.Cash
		keeps += kept(l)
	}
	for _, cents := range j.chargesDue() {
		expected += cents
		outlay += cents
	}
	for t := range j.tradesMade() {
		expected -= j.st.Trades[t].Credit
		outlay -= j.st.Trades[t].Credit
	}
	if j.plan.Expected != expected {
		j.report("expected", "plan", "expected is %s, but adds up to %s", money(j.plan.Expected),
			money(expected))
	}
	if j.plan.Outlay != outlay {
		j.report("outlay", "plan", "outlay is %s, but adds up to %s", money(j.plan.Outlay), money(outlay))
	}
	if j.plan.Keeps != keeps {
		j.report("keeps", "plan", "what is kept is worth %s, but adds up to %s", money(j.plan.Keeps), money(keeps))
	}
	j.checkBudget(expected, outlay)
	j.checkBound()
	if want := j.grade(); !(math.Abs(j.plan.Grade-want) <= 1e-6) {
		j.report("figure-mean", "plan", "the mean grade is %g, but comes to %g", j.plan.Grade, want)
	}
}

func (j *audit) checkBudget(expected, outlay catalog.Cents) {
	budget, sum, word := j.st.Job.Budget, outlay, "outlay"
	switch j.st.Job.BudgetOn {
	case catalog.OnExpected:
		sum, word = expected, "expected"
	case catalog.OnQuote:
		sum, word = j.ownerPays(), "the owner's quote"
		budget.V += j.st.Job.SpentSum // it is in the quote
	}
	if budget.Set && sum > budget.V {
		j.report("budget", "plan", "%s of %s is over the budget of %s", word, money(sum), money(budget.V))
	}
}

func (j *audit) checkBound() {
	bound, expected := j.plan.Bound, j.plan.Expected
	if bound > expected {
		j.report("bound", "plan", "the bound %s is above the total %s", money(bound), money(expected))
	}
	if j.plan.Status == plan.Optimal && bound < expected {
		j.report("bound", "plan", "is called optimal, but the bound %s is below the total %s", money(bound),
			money(expected))
	}
}

// grade is the weighted mean of the chosen pieces, 0..100; the plain mean where
// all weights are nothing.
func (j *audit) grade() float64 {
	sum, weight, plain := int64(0), int64(0), int64(0)
	for _, l := range j.lines {
		w := int64(j.st.Slots[l.slot].Weight)
		sum += w * int64(l.k.Grade)
		weight += w
		plain += int64(l.k.Grade)
	}
	if weight == 0 {
		sum, weight = plain, max(1, int64(len(j.lines)))
	}
	return float64(sum) / float64(weight) / 100
}

// checkCharges compares the plan's charges with those due, kind by kind. A
// charge of nothing may be listed or left out.
func (j *audit) checkCharges() {
	due := j.chargesDue()
	listed := map[chargeKey]catalog.Cents{}
	for _, c := range j.plan.Charges {
		if c.Of < 0 || c.Of >= j.chargeable(c.Kind) {
			j.report("charge", fmt.Sprintf("%s %d", c.Kind, c.Of), "there is nothing of that kind and number")
			continue
		}
		key := chargeKey{c.Kind, c.Of}
		if _, twice := listed[key]; twice && c.Kind != plan.ChargeTrade {
			j.report("charge", j.chargeName(key), "is charged twice")
		}
		listed[key] += c.Cents
		if c.Kind == plan.ChargeTrade && c.Cents != -j.st.Trades[c.Of].Credit {
			j.report("charge", j.chargeName(key), "is %s, but its credit is %s", money(c.Cents),
				money(j.st.Trades[c.Of].Credit))
		}
	}
	for _, kind := range []plan.ChargeKind{plan.ChargeMinimum, plan.ChargePlaterFreight, plan.ChargeVendorFreight,
		plan.ChargeBundle} {
		for of := range j.chargeable(kind) {
			key := chargeKey{kind, of}
			if listed[key] != due[key] {
				j.report("charge", j.chargeName(key), "is %s, but comes to %s", money(listed[key]),
					money(due[key]))
			}
		}
	}
}

// chargesDue are the charges the lines bring with them, without the trades.
func (j *audit) chargesDue() map[chargeKey]catalog.Cents {
	due := map[chargeKey]catalog.Cents{}
	sent, busy := make([]catalog.Cents, len(j.st.Platers)), make([]bool, len(j.st.Platers))
	for _, l := range j.lines {
		if l.k.Plater != catalog.None && !isAtPlater(&j.st.Pieces[l.k.Piece]) {
			busy[l.k.Plater] = true
			sent[l.k.Plater] += l.k.Plate
		}
		k := &j.st.Pieces[l.k.Piece]
		if k.Bundle == catalog.None && k.Vendor != catalog.None {
			due[chargeKey{plan.ChargeVendorFreight, k.Vendor}] = j.st.Vendors[k.Vendor].Freight
		}
		j.bundleDue(due, k)
		if l.f != nil {
			j.bundleDue(due, &j.st.Pieces[l.f.Piece])
		}
	}
	for p, n := range j.piecesUsed() {
		if b := j.st.Pieces[p].Bundle; b != catalog.None {
			due[chargeKey{plan.ChargeBundle, b}] += moreBoxes(&j.st.Bundles[b], n)
		}
	}
	for q := range j.st.Platers {
		if busy[q] {
			due[chargeKey{plan.ChargePlaterFreight, q}] = j.st.Platers[q].Freight
			due[chargeKey{plan.ChargeMinimum, q}] = max(0, j.st.Platers[q].Minimum-sent[q])
		}
	}
	return due
}

// bundleDue adds the bundle a piece comes out of, and its vendor's freight.
func (j *audit) bundleDue(due map[chargeKey]catalog.Cents, piece *catalog.Piece) {
	if piece.Bundle == catalog.None {
		return
	}
	bundle := &j.st.Bundles[piece.Bundle]
	due[chargeKey{plan.ChargeBundle, piece.Bundle}] = bundle.Price
	if bundle.Vendor != catalog.None {
		due[chargeKey{plan.ChargeVendorFreight, bundle.Vendor}] = j.st.Vendors[bundle.Vendor].Freight
	}
}

// moreBoxes is what the boxes beside the first cost where so many pieces come out of them;
// what is sold for one price is bought once.
func moreBoxes(b *catalog.Bundle, pieces int) (cents catalog.Cents) {
	if b.Box <= 0 {
		return 0
	}
	for held := b.Box; held < pieces; held += b.Box {
		cents += b.Price
	}
	return cents
}

// tradesMade are the trades the plan lists, each once.
func (j *audit) tradesMade() map[int]bool {
	made := map[int]bool{}
	for _, c := range j.plan.Charges {
		if c.Kind == plan.ChargeTrade && c.Of >= 0 && c.Of < len(j.st.Trades) {
			made[c.Of] = true
		}
	}
	return made
}

// chargeable is how many things there are that charges of a kind can be for.
func (j *audit) chargeable(kind plan.ChargeKind) int {
	switch kind {
	case plan.ChargeMinimum, plan.ChargePlaterFreight:
		return len(j.st.Platers)
	case plan.ChargeVendorFreight:
		return len(j.st.Vendors)
	case plan.ChargeBundle:
		return len(j.st.Bundles)
	case plan.ChargeTrade:
		return len(j.st.Trades)
	}
	return 0
}

func (j *audit) chargeName(key chargeKey) string {
	name := ""
	switch key.kind {
	case plan.ChargeMinimum, plan.ChargePlaterFreight:
		name = j.st.Platers[key.of].ID
	case plan.ChargeVendorFreight:
		name = j.st.Vendors[key.of].ID
	case plan.ChargeBundle:
		name = j.st.Bundles[key.of].ID
	case plan.ChargeTrade:
		name = j.st.Trades[key.of].ID
	}
	return fmt.Sprintf("%s %q", key.kind, name)
}
