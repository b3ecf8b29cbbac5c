package choice

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// standing says why nothing can be done with a piece for a slot any more, given how far
// it and others have come; "" where something can. hung is the piece that hangs in the
// slot, or catalog.None.
func standing(st *catalog.State, slot, piece, hung int) string {
	p := &st.Pieces[piece]
	switch {
	case p.Elsewhere:
		return "it is in use on another job"
	case p.Gone():
		return "it is " + p.Stage.String()
	case hung != catalog.None && hung != piece:
		return fmt.Sprintf("%s hangs there", plan.PieceCalled(st, hung))
	case p.Stage == catalog.StageHung && p.HungIn != slot:
		return fmt.Sprintf("it hangs in %s", st.Slots[p.HungIn].Name)
	}
	return ""
}

// atPlater adds the one choice there is for a piece that is at a plater's: that he
// goes on. His lot was sent, so its freight and minimum are spent; the work is too once
// he has been told to go ahead, but for what has come to light since. Works of others were
// done before it was sent, but for those that wait until it is back.
func (g *deriver) atPlater(piece int) {
	d, why := sentDraft(g.st, g.slot, piece)
	if why != "" {
		g.out(Exclusion{Piece: piece, Work: d.work, Plater: d.plater, Level: d.level,
			Why: why + ": it has to come back from him first"})
		return
	}
	g.add(piece, d)
}

func sentDraft(st *catalog.State, slot, piece int) (d draft, why string) {
	p := &st.Pieces[piece]
	s, why := Standing(st, slot, piece)
	d = draft{
		work: s.Work, plater: s.Plater, level: s.Level, quote: catalog.None, sent: true, plate: s.Cost,
		fresh:    s.Fresh.Or(true),
		breakage: s.Breakage.Or(0), refused: s.Refused.Or(0), grade: s.Grade.V, tone: s.Tone.Or(0),
		days: max(1, s.Days.Or(st.Platers[s.Plater].Days)-p.Sent.Since),
	}
	d.weak = ComesBackWeak(st, p)
	d.growing = s.Work == catalog.WorkReplate && growing(st, p, func(f *catalog.Finding) bool {
		return p.Sent.Knows(f) && LeftByReplating(st, p, f)
	})
	if p.Stage >= catalog.StageApproved {
		d.plate -= p.Sent.Cost
	}
	if p.Stage >= catalog.StagePlated {
		d.breakage, d.refused = 0, 0
	}
	d.parts = []plan.Part{{Work: catalog.None, Doer: plan.ByPlater, Maker: catalog.None, Cost: d.plate}}
	if why == "" {
		why = d.finish(st, slot, piece)
	}
	return d, why
}

// PlatedBy is the plater whose work shows once a choice hangs: who is to plate the piece,
// else who has plated it and sent it back; catalog.None where nobody did. So pieces
// that are to come from one plater still do when one of them is back.
func PlatedBy(st *catalog.State, c *plan.Choice) int {
	if c.Plated() {
		return c.Plater
	}
	if p := &st.Pieces[c.Piece]; wasPlated(p) {
		return p.Sent.Plater
	}
	return catalog.None
}

// wasPlated says whether a piece came back from a plater with the work done.
func wasPlated(p *catalog.Piece) bool { return p.Sent.Was && p.Stage >= catalog.StageBack }

// AsDone is the work a choice is the outcome of: a piece that is back from a plater and
// hangs as it is, is the piece plated by him; one that hangs may have been cleaned for
// it. Other choices are their own.
func AsDone(st *catalog.State, c *plan.Choice, work string) plan.Choice {
	p, done := &st.Pieces[c.Piece], *c
	switch {
	case c.Work != catalog.WorkAsIs:
	case wasPlated(p):
		done.Work, done.Plater, done.Level = p.Sent.Work, p.Sent.Plater, p.Sent.Level
	case p.Stage == catalog.StageHung && work == catalog.WorkClean:
		done.Work = work
	}
	return done
}

// DayAfter is the day of the job on which something is done that takes so many days from
// where things stand: what takes none is there.
func DayAfter(st *catalog.State, days int) int {
	if days == 0 {
		return 0
	}
	return st.Job.Elapsed + days
}

// OnDay is the day of the job on which a choice is done.
func OnDay(st *catalog.State, c *plan.Choice) int { return DayAfter(st, c.Days) }
