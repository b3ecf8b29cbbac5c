package plan

import (
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// PlanChange is a slot that is filled otherwise than the last plan had it, and what happened
// that may be why.
type PlanChange struct {
	Slot    string
	Was     *catalog.KeptLine // nil where the last plan had no such slot
	Now     *Line             // nil where there is no such slot any more
	Reserve bool              // only what is held in reserve differs
	Again   bool              // it is as planned, but came back without the work, which is paid for once more
	From    string            // the slot for which what is to hang here now was planned, "" if for none
	To      string            // the slot where what was planned here is to hang now, "" if nowhere
	Because []journal.Entry   // that concern its pieces, its locks or its plater, the oldest first
	// nothing of that kind: it follows from what changed elsewhere, from the days gone by, or from an edited file
	ByOthers bool
}

// PlanChanges compares a plan with the one before, slot by slot. A piece that has gone the
// way that was planned for it, to the plater and back, is no change.
func PlanChanges(was []catalog.KeptLine, since int, plan *Plan) []PlanChange {
	var out []PlanChange
	seen := map[string]bool{}
	for i := range plan.Lines {
		l := &plan.Lines[i]
		id := plan.SlotOf(l).ID
		seen[id] = true
		at := slices.IndexFunc(was, func(k catalog.KeptLine) bool { return k.Slot == id })
		if at < 0 {
			out = append(out, PlanChange{Slot: id, Now: l, ByOthers: true})
			continue
		}
		k := &was[at]
		same := AsKept(plan.Of, &k.KeptChoice, l.Choice)
		s := PlanChange{Slot: id, Was: k, Now: l, Again: same && sentAgain(plan, since, l.Choice)}
		if same && !s.Again && sameReserve(plan, k, l) {
			continue
		}
		s.Reserve = same && !s.Again
		if !same {
			s.moved(was, plan)
		}
		s.Because = s.concerning(plan.Of, since)
		s.ByOthers = len(s.Because) == 0
		out = append(out, s)
	}
	for i := range was {
		if !seen[was[i].Slot] {
			out = append(out, PlanChange{Slot: was[i].Slot, Was: &was[i], ByOthers: true})
		}
	}
	return out
}

// sentAgain says whether a piece that is to be sent has been with a plater since a plan was
// kept, and came back without the work.
func sentAgain(pl *Plan, since int, c *Choice) bool {
	if !c.InLot() || pl.Of.Record == nil {
		return false
	}
	about := map[string]bool{pl.PieceOf(c).Key(): true}
	return slices.ContainsFunc(pl.Of.Record.Entries, func(e journal.Entry) bool {
		return e.Seq > since && (e.Action == event.Recalled || e.Action == event.Refused) &&
			slices.ContainsFunc(e.Changes, func(ch journal.Change) bool { return touches(ch, about, "") })
	})
}

// moved finds out whether what hangs here was planned for another slot, and where what
// was planned here hangs now. A bag fills several: what another slot had, and has still, came
// from there no more than it went there.
func (s *PlanChange) moved(was []catalog.KeptLine, plan *Plan) {
	for i := range was {
		id := was[i].Slot
		if id != s.Slot && !asBefore(was, plan, id) && AsKept(plan.Of, &was[i].KeptChoice, s.Now.Choice) {
			s.From = id
		}
	}
	for i := range plan.Lines {
		l := &plan.Lines[i]
		id := plan.SlotOf(l).ID
		if id != s.Slot && !asBefore(was, plan, id) && AsKept(plan.Of, &s.Was.KeptChoice, l.Choice) {
			s.To = id
		}
	}
}

// asBefore says whether a slot is filled as the kept plan has it.
func asBefore(was []catalog.KeptLine, plan *Plan, slot string) bool {
	at := slices.IndexFunc(was, func(k catalog.KeptLine) bool { return k.Slot == slot })
	return at >= 0 && slices.ContainsFunc(plan.Lines, func(l Line) bool {
		return plan.SlotOf(&l).ID == slot && AsKept(plan.Of, &was[at].KeptChoice, l.Choice)
	})
}

// AsKept says whether a choice is what a kept plan has, or what came of it.
func AsKept(st *catalog.State, k *catalog.KeptChoice, c *Choice) bool {
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
func sameReserve(p *Plan, k *catalog.KeptLine, l *Line) bool {
	if l.Fallback == nil {
		return k.Fallback == nil || l.Choice.Fails == 0
	}
	return k.Fallback != nil && AsKept(p.Of, k.Fallback, l.Fallback)
}

// concerning are the entries since a plan was kept that are about the pieces of a line,
// then or now, or about a lock or ban on them. A piece that only hangs elsewhere now has
// no say here; what went as planned is not told where something else happened, and of a
// piece that is to hang as planned it is no reason for another in reserve.
func (s *PlanChange) concerning(st *catalog.State, since int) []journal.Entry {
	if st.Record == nil {
		return nil
	}
	about, spare := map[string]bool{}, map[string]bool{}
	if s.To == "" {
		about[s.Was.Piece] = true
	}
	if s.From == "" {
		about[st.Pieces[s.Now.Choice.Piece].Key()] = true
	}
	if s.Was.Fallback != nil {
		spare[s.Was.Fallback.Piece] = true
	}
	if s.Now.Fallback != nil && s.Reserve {
		spare[st.Pieces[s.Now.Fallback.Piece].Key()] = true
	}
	var news, usual []journal.Entry
	for _, e := range st.Record.Entries {
		of := func(pieces map[string]bool) bool {
			return slices.ContainsFunc(e.Changes, func(c journal.Change) bool { return touches(c, pieces, s.Slot) })
		}
		switch {
		case e.Seq <= since, e.Action == event.Keep, !of(about) && !of(spare):
		case !slices.Contains(routine, e.Action):
			news = append(news, e)
		case !s.Reserve || of(spare):
			usual = append(usual, e)
		}
	}
	if len(news) > 0 {
		return news
	}
	return usual
}

// routine is what happens to a piece that goes the way planned for it.
var routine = []event.Action{event.Bought, event.Came, event.Sent, event.Approved, event.Plated, event.Fitted}

func touches(c journal.Change, about map[string]bool, slot string) bool {
	if len(c.Target) < 2 {
		return false
	}
	kept := c.Target.Is(event.TablePlan) || c.Target.Is(event.TableShare)
	for _, m := range []map[event.Key]any{c.Old, c.New} {
		piece, _ := m[event.KeyPiece].(string)
		if !kept && (about[piece] || about["job:"+piece]) {
			return true
		}
		if at, _ := m[event.KeySlot].(string); at == slot && !kept {
			return true
		}
	}
	switch name := c.Target.Name(); {
	case c.Target.Is(event.TablePiece):
		return about["job:"+name] || about[name]
	case c.Target.Is(event.TableLock):
		return name == slot || strings.EqualFold(name, slot)
	}
	return false
}
