package sharedspare

import (
	"math"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Sharer is one of two lines that share a spare, as far as the other is concerned.
type Sharer struct {
	Fails        catalog.Micro // of k
	Spare        catalog.Micro // that f fails
	FallbackCost catalog.Cents
	Keeps        catalog.Cents // what the spare keeps: no money
	Rescue       catalog.Cents
	MayWait      bool // a rescue would be in time for it
}

// pairing is what comes on top of two lines that share a spare.
type pairing struct {
	Cost  catalog.Cents // of the one that yields; may be negative
	Loses catalog.Cents // what it keeps less
	Later bool          // the second of the two yields
	Both  int64         // chance that one needs a rescue, in 1e-18
}

// Surely is a chance of one in the units of pairing.both.
const Surely = int64(catalog.One) * int64(catalog.One) * int64(catalog.One)

// Yielding is which of two lines that share a spare yields to the other.
type Yielding int8

// Whichever is cheaper, cost and keeping weighed, or one of the two. A budget on what is expected takes
// nothing off for what is kept: there the other may be the one that keeps it.
const (
	CheaperYields Yielding = iota
	FirstYields
	SecondYields
)

// PairUp works out what two lines that share a spare come to; false where the one that would yield may
// not, or where a rescue is certain.
func (y Yielding) PairUp(a, b Sharer) (pairing, bool) {
	p := pairing{Both: eitherRescued(a, b), Later: y == SecondYields}
	mayWait := a.MayWait
	switch y {
	case FirstYields:
		p.Cost, p.Loses = a.yielding(b)
	case SecondYields:
		mayWait = b.MayWait
		p.Cost, p.Loses = b.yielding(a)
	default:
		return cheaper(a, b)
	}
	return p, mayWait && p.Both < Surely
}

// PairUp is what they come to with the cheaper one yielding of those that may.
func PairUp(a, b Sharer) (pairing, bool) { return CheaperYields.PairUp(a, b) }

func cheaper(a, b Sharer) (pairing, bool) {
	first, may := FirstYields.PairUp(a, b)
	second, mayToo := SecondYields.PairUp(a, b)
	if mayToo && (!may || second.Weighed() <= first.Weighed()) {
		return second, true
	}
	return first, may
}

// Weighed is what sharing adds to what plans are compared by.
func (p *pairing) Weighed() catalog.Cents { return p.Cost + p.Loses }

// yielding is what yielding to another adds to the cost of a line, and takes off what it
// keeps.
func (a Sharer) yielding(b Sharer) (cost, loses catalog.Cents) {
	both := catalog.Both(a.Fails, b.Fails)
	return SignedOf(both, a.Rescue-a.FallbackCost), catalog.Of(both, a.Keeps)
}

// Weighed is what falling back comes to in what plans are compared by.
func (a *Sharer) Weighed() catalog.Cents { return a.FallbackCost - a.Keeps }

// SignedOf is catalog.Of for money of either sign: half up, so -0.5 gives 0.
func SignedOf(p catalog.Micro, m catalog.Cents) catalog.Cents {
	if m >= 0 {
		return catalog.Of(p, m)
	}
	// half up of -x is minus half down of x
	x := catalog.Of(p, -m)
	if x > 0 && halfExactly(p, -m) {
		x--
	}
	return -x
}

// halfExactly says whether P m ends in exactly half a cent.
func halfExactly(p catalog.Micro, m catalog.Cents) bool {
	const one = int64(catalog.One)
	return (int64(p)%one)*(int64(m)%one)%one == one/2
}

// eitherRescued is the chance that one of two lines that share a spare ends in a
// rescue, exactly, in 1e-18.
func eitherRescued(a, b Sharer) int64 {
	one := int64(catalog.One)
	pa, pb := int64(a.Fails), int64(b.Fails)
	return pa*(one-pb)*int64(a.Spare) + (one-pa)*pb*int64(b.Spare) + pa*pb*one
}

// PairLoss is -1e6 ln(1 - p) of a chance as eitherRescued gives it, rounded.
func PairLoss(both int64) int64 {
	return int64(math.Round(-1e6 * math.Log1p(-float64(both)/float64(Surely))))
}

// Loss is what a line takes up of the completion row by itself.
func (a Sharer) Loss() int64 { return choice.LogLoss(int64(a.Fails) * int64(a.Spare)) }

// SharerOf gives a line that falls back on f.
func SharerOf(st *catalog.State, k, f *plan.Choice) Sharer {
	return Sharer{
		Fails: k.Fails, Spare: f.Fails, FallbackCost: choice.FallbackCost(st, f), Keeps: f.Keeps,
		Rescue:  choice.Rescue(st, k.Slot),
		MayWait: choice.LineInTime(st, k, nil),
	}
}

// RescuesToExpect is how many slots of a plan need a rescue on average. Two that share
// a spare need one where both fail, and one more where the spare fails too.
func RescuesToExpect(plan *plan.Plan) float64 {
	sum := 0.0
	for i := range plan.Lines {
		l := &plan.Lines[i]
		rescued := float64(choice.BothFail(l.Choice, l.Fallback)) / float64(choice.Certain)
		if l.Sharing != nil && l.Sharing.Yields {
			other := &plan.Lines[i]
			for o := range plan.Lines {
				if plan.Lines[o].Slot == l.Sharing.With {
					other = &plan.Lines[o]
				}
			}
			p, q := float64(l.Choice.Fails)/1e6, float64(other.Choice.Fails)/1e6
			rescued = p*(1-q)*float64(l.Fallback.Fails)/1e6 + p*q
		}
		sum += rescued
	}
	return sum
}
