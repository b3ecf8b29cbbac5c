package adapter

import (
	"brightset/catalog"
	"brightset/model/internal/oracle"
	"brightset/model/plan"
)

// What the oracle says, in the terms of the program: it decides nothing here.

// Line is one line of one slot with what it comes to.
type Line struct {
	K, F *plan.Choice
	cost catalog.Cents
}

// Choices makes every choice of a slot, in the order of the state, before
// any rule of the target.
func Choices(st *catalog.State, slot int) []*plan.Choice {
	var out []*plan.Choice
	for _, c := range oracle.Read(st).Choices(slot) {
		out = append(out, fromOracle(c))
	}
	return out
}

// fromOracle is a choice of the oracle's with all figures that both know.
func fromOracle(c *oracle.Choice) *plan.Choice {
	if c == nil {
		return nil
	}
	return &plan.Choice{Slot: c.Slot, Piece: c.Piece, Work: c.Work, Plater: c.Plater, Level: c.Level, Quote: c.Quote,
		Sent: c.Sent,
		Get:  c.Get, Give: c.Give, Plate: c.Plate, Before: c.Before, Other: c.Other, Strip: c.Strip,
		Makers:   c.Makers,
		Breakage: c.Breakage, Refused: c.Refused, Chance: c.Chance, Misfit: c.Misfit, Fails: c.Fails, Back: c.Back,
		Keep: c.Keep, Keeps: c.Keeps,
		Grade: c.Grade, Tone: c.Tone, Fresh: c.Fresh, Redone: c.Redone, Growing: c.Growing,
		Weak: c.Weak, Days: c.Days, ExpectedCost: c.Paid,
		Cash: c.Cash}
}

// toOracle is the way back.
func toOracle(c *plan.Choice) *oracle.Choice {
	if c == nil {
		return nil
	}
	return &oracle.Choice{Slot: c.Slot, Piece: c.Piece, Work: c.Work, Plater: c.Plater, Level: c.Level, Quote: c.Quote,
		Sent: c.Sent,
		Get:  c.Get, Give: c.Give, Plate: c.Plate, Before: c.Before, Other: c.Other, Strip: c.Strip,
		Makers:   c.Makers,
		Breakage: c.Breakage, Refused: c.Refused, Chance: c.Chance, Misfit: c.Misfit, Fails: c.Fails, Back: c.Back,
		Keep: c.Keep, Keeps: c.Keeps,
		Grade: c.Grade, Tone: c.Tone, Fresh: c.Fresh, Redone: c.Redone, Growing: c.Growing,
		Weak: c.Weak, Days: c.Days, Paid: c.ExpectedCost,
		Cash: c.Cash}
}

// MayHang says whether a choice may be hung.
func MayHang(st *catalog.State, k *plan.Choice) bool {
	return oracle.Read(st).MayHang(toOracle(k))
}

// MayWait says whether a choice may be held in reserve.
func MayWait(st *catalog.State, f *plan.Choice) bool {
	return oracle.Read(st).MayWait(toOracle(f))
}

// NoRescue is the chance that neither of two lines with one spare needs a rescue.
func NoRescue(l, m *Line) float64 {
	return oracle.NoRescue(&oracle.Line{K: toOracle(l.K), F: toOracle(l.F)},
		&oracle.Line{K: toOracle(m.K), F: toOracle(m.F)})
}

// Plan adds a set of lines and trades up to a plan.
func Plan(st *catalog.State, lines []*Line, trades []int) *plan.Plan {
	read := oracle.Read(st)
	var all []*oracle.Line
	for _, l := range lines {
		line := read.Line(toOracle(l.K), toOracle(l.F))
		all = append(all, &line)
	}
	return FromOracle(st, read, all, trades)
}
