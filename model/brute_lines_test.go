package model

import (
	"brightset/catalog"
	"brightset/model/internal/oracle"
)

// What the oracle says, in the terms of the program: it decides nothing here.

// bruteLine is one line of one slot with what it comes to.
type bruteLine struct {
	k, f *Choice
	cost catalog.Cents
}

// bruteChoices makes every choice of a slot, in the order of the state, before
// any rule of the target.
func bruteChoices(st *catalog.State, slot int) []*Choice {
	var out []*Choice
	for _, c := range oracle.Read(st).Choices(slot) {
		out = append(out, fromOracle(c))
	}
	return out
}

// fromOracle is a choice of the oracle's with all figures that both know.
func fromOracle(c *oracle.Choice) *Choice {
	if c == nil {
		return nil
	}
	return &Choice{Slot: c.Slot, Piece: c.Piece, Work: c.Work, Plater: c.Plater, Level: c.Level, Quote: c.Quote, Sent: c.Sent,
		Get: c.Get, Give: c.Give, Plate: c.Plate, Before: c.Before, Other: c.Other, Strip: c.Strip,
		Breakage: c.Breakage, Refused: c.Refused, Chance: c.Chance, Fails: c.Fails,
		Grade: c.Grade, Tone: c.Tone, Fresh: c.Fresh, Growing: c.Growing, Days: c.Days, Paid: c.Paid, Cash: c.Cash}
}

// toOracle is the way back.
func toOracle(c *Choice) *oracle.Choice {
	if c == nil {
		return nil
	}
	return &oracle.Choice{Slot: c.Slot, Piece: c.Piece, Work: c.Work, Plater: c.Plater, Level: c.Level, Quote: c.Quote, Sent: c.Sent,
		Get: c.Get, Give: c.Give, Plate: c.Plate, Before: c.Before, Other: c.Other, Strip: c.Strip,
		Breakage: c.Breakage, Refused: c.Refused, Chance: c.Chance, Fails: c.Fails,
		Grade: c.Grade, Tone: c.Tone, Fresh: c.Fresh, Growing: c.Growing, Days: c.Days, Paid: c.Paid, Cash: c.Cash}
}

// bruteExpected is what a line costs on average.
func bruteExpected(st *catalog.State, k, f *Choice) catalog.Cents {
	return oracle.Read(st).Expected(toOracle(k), toOracle(f))
}

// bruteChosenMay says whether a choice may be hung.
func bruteChosenMay(st *catalog.State, k *Choice) bool { return oracle.Read(st).MayHang(toOracle(k)) }

// bruteReserveMay says whether a choice may be held in reserve.
func bruteReserveMay(st *catalog.State, f *Choice) bool { return oracle.Read(st).MayWait(toOracle(f)) }

// bruteNoRescue is the chance that neither of two lines with one spare needs a rescue.
func bruteNoRescue(l, m *bruteLine) float64 {
	return oracle.NoRescue(&oracle.Line{K: toOracle(l.k), F: toOracle(l.f)}, &oracle.Line{K: toOracle(m.k), F: toOracle(m.f)})
}

// brutePlan adds a set of lines and trades up to a plan.
func brutePlan(st *catalog.State, lines []*bruteLine, trades []int) *Plan {
	read := oracle.Read(st)
	var all []*oracle.Line
	for _, l := range lines {
		line := read.Line(toOracle(l.k), toOracle(l.f))
		all = append(all, &line)
	}
	return oraclePlan(st, read, all, trades)
}
