package model

import (
	"math"

	"brightset/catalog"
)

// One spare held for two slots. Slots s and t hang k_s and k_t, which fail with P_s
// and P_t, each by itself, and fall back on one piece, as f_s or as f_t. If only one
// fails it takes the spare. If both fail the one that has the first call takes it, and
// the other, which yields, is rescued:
//
//	E(has the first call) = paid + P standin(f), as if the spare were its own
//	E(yields)             = paid + P standin(f) + (P_s P_t)(R - standin(f))
//
// The last term is rounded as everywhere, half up: (P m + 500000) div 1000000, where
// div goes down, so that it is right for a negative m too. A rescue that is cheaper
// than the spare makes it negative.
//
// Which of them yields is decided beforehand: the one that makes the pair cheaper; of
// equals the later slot. By the date it may yield if a rescue would be in time for it:
// days(k) + rescue_days <= within_days.
//
// The chance that one of the two needs a rescue:
//
//	P_s (1-P_t) p_fs + (1-P_s) P_t p_ft + P_s P_t
//
// and what the pair takes up of the completion row is round(-1e6 ln(1 - that)).

// Sharing says that the fallback of a line is held for another slot too.
type Sharing struct {
	With   int  // the other slot, whose line says the same of this one
	Yields bool // if both fail the spare goes to the other slot, and this one is rescued
}

// sharer is one of two lines that share a spare, as far as the other is concerned.
type sharer struct {
	fails   catalog.Micro // of k
	spare   catalog.Micro // that f fails
	standin catalog.Cents
	rescue  catalog.Cents
	mayWait bool // a rescue would be in time for it
}

// pairing is what comes on top of two lines that share a spare.
type pairing struct {
	cost  catalog.Cents // of the one that yields; may be negative
	later bool          // the second of the two yields
	both  int64         // chance that one needs a rescue, in 1e-18
}

// surely is a chance of one in the units of pairing.both.
const surely = int64(catalog.One) * int64(catalog.One) * int64(catalog.One)

// pairUp works out what two lines that share a spare come to; false where neither may
// yield, or where a rescue is certain.
func pairUp(a, b sharer) (pairing, bool) {
	p := pairing{both: eitherRescued(a, b)}
	if p.both >= surely || !a.mayWait && !b.mayWait {
		return p, false
	}
	first, second := a.yielding(b), b.yielding(a)
	p.later = !a.mayWait || b.mayWait && second <= first
	p.cost = first
	if p.later {
		p.cost = second
	}
	return p, true
}

// yielding is what yielding to another adds to the cost of a line.
func (a sharer) yielding(b sharer) catalog.Cents {
	return signedOf(catalog.Both(a.fails, b.fails), a.rescue-a.standin)
}

// signedOf is catalog.Of for money of either sign: half up, so -0.5 gives 0.
func signedOf(p catalog.Micro, m catalog.Cents) catalog.Cents {
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
func eitherRescued(a, b sharer) int64 {
	one := int64(catalog.One)
	pa, pb := int64(a.fails), int64(b.fails)
	return pa*(one-pb)*int64(a.spare) + (one-pa)*pb*int64(b.spare) + pa*pb*one
}

// pairLoss is -1e6 ln(1 - p) of a chance as eitherRescued gives it, rounded.
func pairLoss(both int64) int64 {
	return int64(math.Round(-1e6 * math.Log1p(-float64(both)/float64(surely))))
}

// loss is what a line takes up of the completion row by itself.
func (a sharer) loss() int64 { return logLoss(int64(a.fails) * int64(a.spare)) }

// sharerOf gives a line that falls back on f.
func sharerOf(st *catalog.State, k, f *Choice) sharer {
	return sharer{
		fails: k.Fails, spare: f.Fails, standin: Standin(st, f), rescue: rescue(st, k.Slot),
		mayWait: daysOfLine(st, k, nil),
	}
}
