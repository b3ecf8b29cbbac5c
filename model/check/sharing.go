package check

import (
	"fmt"
	"math"
	"math/big"

	"brightset/catalog"
	"brightset/model/plan"
)

// readSharing finds, for each line that says it shares its fallback, the line it
// shares it with. Lines that don't agree about it are named, and count as if each
// held the fallback for itself.
func (j *audit) readSharing() {
	at := map[int]*auditedLine{}
	for i := range j.lines {
		at[j.lines[i].slot] = &j.lines[i]
	}
	for i := range j.lines {
		l := &j.lines[i]
		if l.given.Sharing == nil {
			continue
		}
		if rule, why := j.sharingWrong(l, at[l.given.Sharing.With]); why != "" {
			j.report(rule, j.slotName(l.slot), "%s", why)
			continue
		}
		l.with = at[l.given.Sharing.With]
	}
	for i := range j.lines {
		if l := &j.lines[i]; l.with != nil && l.with.with != l {
			l.with = nil
		}
	}
}

// sharingWrong says why two lines can't share as the first of them says.
func (j *audit) sharingWrong(l, other *auditedLine) (rule, why string) {
	says := l.given.Sharing
	switch {
	case says.With < 0 || says.With >= len(j.st.Slots):
		return "sharing-slot", fmt.Sprintf("shares its fallback with slot number %d, which there isn't", says.With)
	case says.With == l.slot:
		return "sharing-slot", "shares its fallback with itself"
	case other == nil:
		return "sharing-slot", "shares its fallback with " + j.slotName(says.With) + ", which has no sound line"
	case other.given.Sharing == nil || other.given.Sharing.With != l.slot:
		return "sharing-other", "shares its fallback with " + j.slotName(other.slot) + ", which doesn't say so"
	case l.f == nil || other.f == nil || l.f.Piece != other.f.Piece:
		return "sharing-piece", "shares with " + j.slotName(other.slot) + " what they don't both fall back on"
	case says.Yields == other.given.Sharing.Yields:
		return "sharing-yields", "of it and " + j.slotName(other.slot) + " not exactly one yields"
	}
	return "", ""
}

// checkSharing checks that a rescue is not certain for any two that share.
func (j *audit) checkSharing() {
	for _, l := range j.lines {
		if l.with == nil || l.slot > l.with.slot {
			continue
		}
		if risk, _ := pairRisk(l); risk >= 1 {
			j.report("certain-failure", j.slotName(l.slot), "it and %s need a rescue for certain",
				j.slotName(l.with.slot))
		}
	}
}

// lineExpected is the cost of a line, and for one that yields its spare to
// another what it costs more to be rescued instead, where both fail.
func lineExpected(st *catalog.State, l auditedLine) catalog.Cents {
	own := Expected(st, l.k, l.f)
	if l.with == nil || !l.given.Sharing.Yields {
		return own
	}
	// what falling back on f costs is what a line that fails for certain pays
	sure := plan.Choice{Slot: l.slot, Fails: catalog.One}
	more := Expected(st, &sure, nil) - Expected(st, &sure, l.f)
	million := big.NewInt(1_000_000)
	both := new(big.Int).Mul(big.NewInt(int64(l.k.Fails)), big.NewInt(int64(l.with.k.Fails)))
	both.Add(both, big.NewInt(500_000)).Div(both, million)
	both.Mul(both, big.NewInt(int64(more))).Add(both, big.NewInt(500_000)).Div(both, million) // Div goes down
	return own + catalog.Cents(both.Int64())
}

// pairRisk is the chance that one of two lines that share a fallback needs a
// rescue, by going through what may happen, and what that takes up of the completion
// row; the row is given nothing where a rescue is certain.
func pairRisk(l auditedLine) (risk float64, weight int64) {
	happens := func(fails catalog.Micro, does bool) *big.Int {
		if does {
			return big.NewInt(int64(fails))
		}
		return big.NewInt(int64(catalog.One - fails))
	}
	none := new(big.Int)
	for _, first := range []bool{false, true} {
		for _, second := range []bool{false, true} {
			one := new(big.Int).Mul(happens(l.k.Fails, first), happens(l.with.k.Fails, second))
			switch {
			case first && second:
				continue
			case first:
				one.Mul(one, happens(l.f.Fails, false))
			case second:
				one.Mul(one, happens(l.with.f.Fails, false))
			default:
				one.Mul(one, big.NewInt(int64(catalog.One)))
			}
			none.Add(none, one)
		}
	}
	whole := big.NewInt(1_000_000_000_000_000_000)
	bad, _ := new(big.Float).SetInt(none.Sub(whole, none)).Float64()
	risk = bad / 1e18
	if risk >= 1 {
		return risk, 0
	}
	return risk, int64(math.Round(-1e6 * math.Log1p(-risk)))
}
