package ask

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// steady says whether the decision is known to stand from a near value, where it does, to
// a far one. A no is no answer: it may stand all the same.
//
// One of the two values is the worse for every set that has to do with the figure: the
// dearer price, the greater chance of breaking, the lower grade. Going from the better to
// it no set becomes cheaper and none becomes possible that wasn't:
//
//   - a price or a breakage only adds to what a line comes to on average, but for what
//     keptMore allows for, and to cash,
//     and to what counts against breakage and completion;
//   - a grade costs nothing, and within uniform's bounds only floors and the mean ask about
//     it, both for as much at least.
//
// So between the two the sets that keep to the decision cost at most what they do at the
// worse, and the others at least what they do at the better:
//
//	kept(worse) <= others(better): it stands all the way.
//
// Where the others don't have to do with the figure, as most often, they cost the same
// everywhere, this is exact, and halving the way finds the nearest turn. A price after
// strip may also save: it fills the plater's minimum in full, while it is paid only if
// the piece comes and isn't sent back. saving is how much that can be.
//
// A budget on what the owner is quoted is the exception where a minimum may be short: a cent
// more is marked up and rounded in its line, a cent less to the minimum with all charges, so
// that the quote may fall by a cent while the price rises.
func (t *turning) steady(near, far int64) (bool, error) {
	if t.erratic() {
		return false, nil
	}
	for _, d := range []int64{near, far} {
		if _, err := t.verdict(d); err != nil || t.open() {
			return false, err
		}
	}
	better, worse := t.ends(near, far)
	kept, others, saving := &worse.kept, &better.others, t.saving(far-near, catalog.None)
	if kept.hi == none || others.hi >= kept.hi+2*saving { // else it hardly will
		stands, err := t.noMore(kept, others, 2*saving)
		if err != nil || t.open() {
			return false, err
		}
		if stands && t.surely(near, far) || stands && kept.lo == none && saving == 0 {
			return true, nil
		}
	}
	return t.linear(near, far)
}

// surely says whether what is known is enough for steady to say yes.
func (t *turning) surely(near, far int64) bool {
	better, worse := t.ends(near, far)
	saving, kept := t.saving(far-near, catalog.None), worse.kept.hi
	if t.erratic() || kept == none || better.others.lo < kept+2*saving {
		return false
	}
	// What is beyond the budget at one end may be within it before the other.
	return saving == 0 || !t.budgeted() || kept+2*saving <= int64(t.st.Job.Budget.V-t.mostKept())
}

// erratic says whether a set may cost less on one side and less on the other of some value.
func (t *turning) erratic() bool {
	return t.figure == choice.FigurePlating && !t.c.Sent && t.st.Job.BudgetOn == catalog.OnQuote && t.st.Job.Budget.Set &&
		t.st.Quote.Plating > 0 && t.st.Platers[t.c.Plater].Minimum > 0
}

// saving is by how much a set may become cheaper, in cents, while the price after strip
// rises by so much: n (1 - c (1-r)) of every cent, and what is rounded, in every slot
// where the plater's minimum may be short; but for one slot.
func (t *turning) saving(rise int64, but int) int64 {
	if t.figure == choice.FigureBreakage {
		return t.keptMore(rise, but)
	}
	if t.figure != choice.FigurePlating || t.c.Sent || t.st.Platers[t.c.Plater].Minimum == 0 {
		return 0
	}
	sum := int64(0)
	for s, list := range t.at(0).choices {
		for i := range list {
			k := &list[i]
			if s == but {
				break
			}
			unpaid := catalog.One - catalog.Both(k.Usable(), catalog.One-k.Refused)
			if plan.SameChoice(k, t.c) && unpaid > 0 {
				n := int64(choice.Needed(&t.st.Slots[k.Slot]))
				sum += n*int64(catalog.Of(unpaid, catalog.Cents(min(rise, int64(t.st.Platers[t.c.Plater].Minimum))))) + n + 2
			}
		}
	}
	return sum
}

// keptMore is by how much a set may come to less, in what sets are compared by, while a
// piece breaks so much more often: where one of the object's own stands in for it whose
// keeping is worth more than it costs.
func (t *turning) keptMore(rise int64, but int) (sum int64) {
	for s, list := range t.at(0).choices {
		if s == but {
			continue
		}
		most := catalog.Cents(0)
		for i := range list {
			most = max(most, list[i].Keeps-choice.FallbackCost(t.st, &list[i]))
		}
		if most > 0 {
			n := int64(choice.Needed(&t.st.Slots[s]))
			sum += n*int64(catalog.Of(catalog.Micro(min(rise, int64(catalog.One))), most)) + n + 2
		}
	}
	return sum
}

// derivations are the choices for the slots that the piece fits, with the figure at one
// value: per slot, none for the others.
type derivations struct {
	st      *catalog.State
	choices [][]plan.Choice
}

// at derives the choices at a distance.
func (t *turning) at(distance int64) *derivations {
	if d := t.derived[distance]; d != nil {
		return d
	}
	moved, adjust := t.lever.Moved(t.st, t.value(distance))
	d := &derivations{moved, make([][]plan.Choice, len(t.st.Slots))}
	for s := range t.st.Slots {
		if !choice.FitsSlot(&t.st.Pieces[t.c.Piece], s) {
			continue
		}
		d.choices[s] = choice.ChoicesFor(moved, s)
		for i := range d.choices[s] {
			if adjust != nil {
				adjust(&d.choices[s][i])
				choice.AddUp(&d.choices[s][i])
			}
		}
	}
	t.derived[distance] = d
	return d
}
