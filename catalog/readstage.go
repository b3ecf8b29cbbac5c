package catalog

import (
	"fmt"
	"slices"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// readStage reads how far a piece has come and where it is.
func (l *loader) readStage(t *table, p *Piece) {
	p.HungIn = None
	if w := t.word("stage", stageWords...); w != "" {
		p.Stage = Stage(slices.Index(stageWords, w))
	}
	p.Elsewhere = t.text("job") != "" && !l.isOurs(t.text("job"), false)
	if t.has("job") && !p.InShop {
		t.wrongKey("job", "only a piece of the shop's is on one job or another", "leave job out")
	}
	if s := t.sub("sent", fmt.Sprintf("what piece %q was sent for", p.ID)); s != nil {
		lot, on := s.text("lot"), s.date("on")
		count, paid := s.whole("count", 1, MaxQuantity).Or(1), s.money("paid")
		quoted, before, after := s.flag("quoted"), s.refs("before", l.works), s.refs("after", l.works)
		base, factor := s.share("base"), number(s, "factor", 0, MaxFactor, 1e6)
		s.need("grade", "write grade = 90, what it is to look like")
		p.Sent = Sent{Was: true, Quote: l.readQuote(s, p, p.Metal == None), Quoted: quoted, Before: before, After: after,
			Lot: lot, On: on, Count: count, Paid: paid, Base: base, Factor: factor}
		if p.Sent.Work == "" {
			p.Sent.Work = WorkReplate
		}
	}
	if p.Stage == StagePlated && !p.Sent.Was && !l.partial {
		t.wrong("stage", "nobody is named who plated it",
			fmt.Sprintf("write a table [piece.%s.sent] with plater, cost and grade, or stage = \"back\"", keyText(p.ID)))
	}
	if p.InShop && p.Elsewhere {
		t.text("hung_in") // a slot of another job
		return
	}
	if p.HungIn = t.ref("hung_in", l.slots); p.HungIn != None && !slices.Contains(p.Fits, p.HungIn) {
		t.wrong("hung_in", fmt.Sprintf("piece %q doesn't fit slot %q", p.ID, l.state.Slots[p.HungIn].ID),
			"add the slot to the piece's fits, or name another slot")
	}
	if hung := p.Stage == StageHung; hung != t.has("hung_in") {
		if hung {
			t.wrong("stage", "it does not say where it hangs", `write hung_in = "...", the slot`)
		} else {
			t.wrongKey("hung_in", "a slot where a piece hangs, and it is not hung", `write stage = "hung", or leave hung_in out`)
		}
	}
}

// readSpent reads [spent.NAME], what has been paid already.
func (l *loader) readSpent() {
	if l.job == nil {
		return
	}
	for _, t := range l.job.named("spent") {
		s := Spent{ID: t.id, For: t.text("for"), Piece: t.piece("piece"), From: t.here()}
		cost, credit := t.money("cost"), t.money("credit")
		s.Cents = cost.V - credit.V
		if !t.has("cost") && !t.has("credit") {
			t.wrongHere(t.what+" names no sum", `write cost = "120.00", or credit = "30.00" for money that came in`)
		}
		if s.For == "" {
			s.For = t.id
		}
		s.Bears = Bears(max(0, slices.Index(bearsWords, t.word("markup", bearsWords...))))
		l.state.Job.Spent = append(l.state.Job.Spent, s)
		t.done()
	}
}

// readKept reads [plan.SLOT], the plan that was last kept.
func (l *loader) readKept() {
	if l.job == nil {
		return
	}
	tables := l.job.named("plan")
	if len(tables) == 0 {
		return
	}
	kept := &Kept{From: tables[0].here()}
	for _, t := range tables {
		line := KeptLine{Slot: t.id, KeptChoice: t.keptChoice()}
		if sub := t.sub("fallback", "what "+t.what+" holds in reserve"); sub != nil {
			f := sub.keptChoice()
			line.Fallback = &f
			sub.done()
		}
		kept.Lines = append(kept.Lines, line)
		t.done()
	}
	for _, t := range l.job.named("share") {
		kept.Share = append(kept.Share, KeptShare{ID: t.id, Kind: ShareKind(t.word("kind", shareWords...)), Of: t.text("of"),
			Cents: t.money("cost").V})
		t.done()
	}
	l.state.Kept = kept
	for i, e := range l.entries() {
		if e.Action == event.Keep {
			kept.Seq, kept.On = l.state.Record.Entries[i].Seq, l.state.Record.Entries[i].Day()
		}
	}
}

func (t *table) keptChoice() KeptChoice {
	return KeptChoice{Piece: t.text("piece"), Work: t.text("work"), Plater: t.text("plater"), Level: t.text("level"),
		Expected: t.money("expected").V}
}

// entries are what stands in the job's journal.
func (l *loader) entries() []journal.Entry {
	if l.state.Record == nil {
		return nil
	}
	return l.state.Record.Entries
}

// settle works out where the job stands: what is left of the budget, and how many
// days are gone. The clock is that of what was recorded, not that of the machine: the
// same files give the same answer on any day.
func (l *loader) settle() {
	job := &l.state.Job
	for _, s := range job.Spent {
		job.SpentSum += s.Cents
	}
	if job.Budget.Set {
		job.Budget.V -= job.SpentSum
	}
	l.leaveOutWrongDays()
	l.reckonDays()
}

// checkHung reports two pieces in one slot, and a slot that is filled twice over.
func (l *loader) checkHung() {
	by := map[int]int{}
	for i := range l.state.Pieces {
		p := &l.state.Pieces[i]
		if p.Stage != StageHung || p.HungIn == None || p.Gone() {
			continue
		}
		if first, twice := by[p.HungIn]; twice {
			l.mistakeAt(p.From, fmt.Sprintf("piece %q hangs in slot %q, and so does %q", p.ID, l.state.Slots[p.HungIn].ID,
				l.state.Pieces[first].ID), "one of the two is somewhere else: change its stage")
		}
		by[p.HungIn] = i
		if need := l.state.Slots[p.HungIn].Quantity; p.Quantity < need {
			l.mistakeAt(p.From, fmt.Sprintf("slot %q needs %d, and there are only %d of piece %q", l.state.Slots[p.HungIn].ID,
				need, p.Quantity, p.ID), "name another piece")
		}
	}
}

// mistakeAt adds a mistake at the origin of a value.
func (l *loader) mistakeAt(at Origin, message, hint string) {
	for _, t := range slices.Concat([]*table{l.job, l.shop}, l.others) {
		if t != nil && t.doc.file == at.File {
			l.mistake(t.doc, span{line: at.Line, column: at.Column, width: 1}, message, hint)
			return
		}
	}
	l.list = append(l.list, ranked{600_000, Mistake{File: at.File, Line: at.Line, Column: max(1, at.Column), Width: 1,
		Message: message, Hint: hint}})
}
