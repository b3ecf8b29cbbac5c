package model

import (
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/journal"
)

// Shift is a slot that is filled otherwise than the last plan had it, and what happened
// that may be why.
type Shift struct {
	Slot     string
	Was      *catalog.KeptLine // nil where the last plan had no such slot
	Now      *Line             // nil where there is no such slot any more
	Reserve  bool              // only what is held in reserve differs
	Because  []journal.Entry   // that concern its pieces, its locks or its plater, the oldest first
	ByOthers bool              // nothing of that kind: it follows from what changed elsewhere, or from an edited file
}

// Shifts compares a plan with the one before, slot by slot. A piece that has gone the
// way that was planned for it, to the plater and back, is no change.
func Shifts(st *catalog.State, was []catalog.KeptLine, since int, plan *Plan) []Shift {
	var out []Shift
	seen := map[string]bool{}
	for i := range plan.Lines {
		l := &plan.Lines[i]
		id := st.Slots[l.Slot].ID
		seen[id] = true
		at := slices.IndexFunc(was, func(k catalog.KeptLine) bool { return k.Slot == id })
		if at < 0 {
			out = append(out, Shift{Slot: id, Now: l, ByOthers: true})
			continue
		}
		k := &was[at]
		switch same := asPlanned(st, k, l.Choice); {
		case same && sameReserve(st, k, l):
			continue
		default:
			s := Shift{Slot: id, Was: k, Now: l, Reserve: same}
			s.Because = concerning(st, since, k, l)
			s.ByOthers = len(s.Because) == 0
			out = append(out, s)
		}
	}
	for i := range was {
		if !seen[was[i].Slot] {
			out = append(out, Shift{Slot: was[i].Slot, Was: &was[i], ByOthers: true})
		}
	}
	return out
}

// asPlanned says whether a choice is what was planned, or what came of it.
func asPlanned(st *catalog.State, k *catalog.KeptLine, c *Choice) bool {
	p := &st.Pieces[c.Piece]
	if p.Key() != k.Piece {
		return false
	}
	now := keptChoice(st, c)
	if now.Work == k.Work && now.Plater == k.Plater && now.Level == k.Level {
		return true
	}
	done := p.Sent.Was && p.Stage >= catalog.StageBack && st.Platers[p.Sent.Plater].ID == k.Plater
	return c.Work == catalog.WorkAsIs && (done || p.Stage == catalog.StageHung)
}

// sameReserve: what can't fail any more needs nothing in reserve.
func sameReserve(st *catalog.State, k *catalog.KeptLine, l *Line) bool {
	if l.Fallback == nil {
		return k.Fallback == nil || l.Choice.Fails == 0
	}
	return k.Fallback != nil && keptChoice(st, l.Fallback) == *k.Fallback
}

// concerning are the entries since a plan was kept that are about the pieces of a line,
// then or now, or about a lock or ban on them.
func concerning(st *catalog.State, since int, k *catalog.KeptLine, l *Line) []journal.Entry {
	if st.Record == nil {
		return nil
	}
	about := map[string]bool{k.Piece: true, st.Pieces[l.Choice.Piece].Key(): true}
	if k.Fallback != nil {
		about[k.Fallback.Piece] = true
	}
	var out []journal.Entry
	for _, e := range st.Record.Entries {
		if e.Seq > since && e.Action != catalog.KeepAction && slices.ContainsFunc(e.Changes, func(c journal.Change) bool { return touches(c, about, k.Slot) }) {
			out = append(out, e)
		}
	}
	return out
}

func touches(c journal.Change, about map[string]bool, slot string) bool {
	if len(c.Target) < 2 {
		return false
	}
	for _, m := range []map[string]any{c.Old, c.New} {
		piece, _ := m["piece"].(string)
		if c.Target[0] != "plan" && (about[piece] || about["job:"+piece]) {
			return true
		}
		if at, _ := m["slot"].(string); at == slot && c.Target[0] != "plan" {
			return true
		}
	}
	switch c.Target[0] {
	case "piece":
		return about["job:"+c.Target[1]] || about[c.Target[1]]
	case "lock":
		return c.Target[1] == slot || strings.EqualFold(c.Target[1], slot)
	}
	return false
}
