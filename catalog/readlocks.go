package catalog

import "fmt"

// readFilter reads what picks choices: a piece, a work, a plater, a level.
func (t *table) readFilter() Filter {
	f := Filter{Slot: None, Piece: None, Plater: None}
	f.Piece = t.piece("piece")
	f.Work = t.word("work", WorkAsIs, WorkClean, WorkReplate, WorkRepair)
	f.Plater = t.ref("plater", t.l.platers)
	f.Level = t.level("level", f.Plater)
	if f.Work == WorkAsIs || f.Work == WorkClean {
		for _, key := range []string{"plater", "level"} {
			if t.has(key) {
				t.wrongKey(key, fmt.Sprintf("work %q is done by no plater", f.Work), "leave "+key+" out")
			}
		}
	}
	return f
}

// empty says whether a lock or ban names nothing but a slot and a reason.
func (t *table) empty() bool {
	return !t.has("piece") && !t.has("work") && !t.has("plater") && !t.has("level")
}

// checkFits makes sure that the piece of a filter fits its slot.
func (t *table) checkFits(f Filter) {
	if f.Slot == None || f.Piece == None {
		return
	}
	s, p := &t.l.state.Slots[f.Slot], &t.l.state.Pieces[f.Piece]
	for _, fits := range p.Fits {
		if fits != f.Slot {
			continue
		}
		if p.Quantity < s.Quantity {
			t.wrong("piece", fmt.Sprintf("slot %q needs %d, and there are only %d of piece %q", s.ID, s.Quantity, p.Quantity,
				p.ID), "name another piece")
		}
		return
	}
	t.wrong("piece", fmt.Sprintf("piece %q doesn't fit slot %q", p.ID, s.ID),
		"add the slot to the piece's fits, or name another piece")
}

// readLocks reads [lock.SLOT], or [lock.ID] with a slot.
func (l *loader) readLocks() {
	if l.job == nil {
		return
	}
	locked := map[int]string{}
	before := len(l.list)
	var tables []*table
	for _, t := range l.job.named("lock") {
		lock := Lock{Filter: t.readFilter(), Reason: t.text("reason"), From: t.here()}
		if t.has("slot") {
			lock.Slot = t.ref("slot", l.slots)
		} else if i, ok := l.slots.index[t.id]; ok {
			lock.Slot = i
		} else if !l.excused(l.slots, t.id) {
			t.wrongHere(l.unknown(l.slots, t.id))
		}
		if t.empty() {
			t.wrongHere(t.what+" fixes nothing", `write piece = "...", work = "...", plater = "..." or level = "..."`)
		}
		t.checkFits(lock.Filter)
		if lock.Slot != None {
			if first, again := locked[lock.Slot]; again {
				t.wrongHere(fmt.Sprintf("slot %q is locked already, by lock %q", l.state.Slots[lock.Slot].ID, first),
					"put both together")
			}
			locked[lock.Slot] = t.id
		}
		l.state.Locks = append(l.state.Locks, lock)
		tables = append(tables, t)
		t.done()
	}
	if len(l.list) == before && !l.partial {
		l.checkReach(tables)
	}
}

// readBans reads [ban.NAME] and refuses one that forbids all a lock allows.
func (l *loader) readBans() {
	if l.job == nil {
		return
	}
	for _, t := range l.job.named("ban") {
		ban := Ban{ID: t.id, Filter: t.readFilter(), Reason: t.text("reason"), From: t.here()}
		ban.Slot = t.ref("slot", l.slots)
		before := len(l.list)
		if t.empty() {
			t.wrongHere(t.what+" would forbid everything", `write piece = "...", work = "...", plater = "..." or level = "..."`)
		}
		t.done()
		l.state.Bans = append(l.state.Bans, ban)
		if len(l.list) > before || l.partial {
			continue
		}
		for _, lock := range l.state.Locks {
			if ban.covers(lock.Filter) {
				where := fmt.Sprintf("the lock on line %d", lock.From.Line)
				if i := lock.Slot; i != None && lock.From.Source == Recorded {
					where = fmt.Sprintf("the recorded lock on slot %q", l.state.Slots[i].ID)
				}
				t.wrongHere(fmt.Sprintf("%s forbids what %s demands", t.what, where), "leave one of the two out")
			}
		}
	}
}

// covers says whether everything the filter g picks is picked by f.
func (f Filter) covers(g Filter) bool {
	return (f.Slot == None || f.Slot == g.Slot) &&
		(f.Piece == None || f.Piece == g.Piece) &&
		(f.Work == "" || f.Work == g.Work) &&
		(f.Plater == None || f.Plater == g.Plater) &&
		(f.Level == "" || f.Level == g.Level)
}
