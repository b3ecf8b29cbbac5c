package report

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// BenchSlot is one position in the list of them, with where it stands.
type BenchSlot struct {
	ID, Name string
	State    string   // hung, at Pell Lane, planned, to buy, nothing
	Sign     string   // the same in a sign
	Class    string   // the same for its colour: done, away, planned, wanted, none
	Piece    string   // key of the piece that hangs there; "" where none does
	Photo    bool     // it has a photo
	What     string   // the piece and what is done to it
	Cost     string   // if all goes well; "" without a plan
	Open     []string // what is still to be found out or done
	Locked   bool
}

// BenchSlots lists the positions.
func BenchSlots(p *plan.Plan) []BenchSlot {
	var all []BenchSlot
	for s := range p.Of.Slots {
		slot := &p.Of.Slots[s]
		one := BenchSlot{ID: slot.ID, Name: slot.Name, State: "not planned", Sign: "?", Class: "none"}
		if !slot.Area.Set {
			one.Open = append(one.Open, "surface not known")
		}
		if p.Has {
			one.fill(p, &p.Lines[s])
		}
		one.Locked = slices.ContainsFunc(p.Of.Locks, func(l catalog.Lock) bool { return l.Slot == s })
		all = append(all, one)
	}
	return all
}

// fill says where a position stands by the line that the plan has for it.
func (one *BenchSlot) fill(p *plan.Plan, l *plan.Line) {
	c, piece := l.Choice, p.PieceOf(l.Choice)
	one.Piece, one.Photo = piece.Key(), len(piece.Photos) > 0
	one.What = plan.Told(p.Of, c)
	one.Cost = catalog.FormatMoney(c.Cash)
	switch {
	case piece.Stage == catalog.StageHung:
		one.State, one.Sign, one.Class = "hung", "✓", "done"
		return
	case piece.AtPlater():
		one.State, one.Sign, one.Class = "at "+p.Of.Platers[piece.Sent.Plater].Name, "→", "away"
	case piece.Chance < catalog.One:
		one.State, one.Sign, one.Class = "to come", "…", "wanted"
	case piece.Side == catalog.Vendors:
		one.State, one.Sign, one.Class = "to buy", "+", "wanted"
	case piece.Stage == catalog.StageBack:
		one.State, one.Sign, one.Class = "back, to hang", "◆", "planned"
	default:
		one.State, one.Sign, one.Class = "planned", "○", "planned"
	}
	if !piece.FittedIn(l.Slot) && !piece.AtPlater() {
		one.Open = append(one.Open, "not tried on")
	}
	if piece.Unpriced {
		one.Open = append(one.Open, "no price given")
	}
	if c.Plated() && c.Quote == catalog.None && !piece.AtPlater() {
		one.Open = append(one.Open, "price a guess")
	}
	if l.Fallback == nil && c.Fails > 0 {
		one.Open = append(one.Open, "nothing in reserve")
	}
}

// Decision says in a sentence what the plan does about a position: "hood crest: crest-2, Pell Lane, show
// finish, 176.00; if that fails, crest-1, cleaned."
func Decision(p *plan.Plan, slot int) string {
	if !p.Has {
		return ""
	}
	l := &p.Lines[slot]
	c := l.Choice
	text := fmt.Sprintf("%s: %s, %s, %s", p.Of.Slots[slot].Name, plan.PieceCalled(p.Of, c.Piece),
		plan.Way(p.Of, c), catalog.FormatMoney(c.Cash))
	switch f := l.Fallback; {
	case c.Fails == 0:
		return text + "."
	case f == nil:
		return text + "; if that fails, nothing is held for it."
	default:
		return text + fmt.Sprintf("; if that fails, %s, %s.", plan.PieceCalled(p.Of, f.Piece), plan.Way(p.Of, f))
	}
}

// Sums is the plan in four figures: money, finish, chance and date, each with what was asked for.
func Sums(p *plan.Plan) [][3]string {
	job := &p.Of.Job
	ask := func(set bool, text string) string {
		if !set {
			return ""
		}
		return text
	}
	done := choice.DayDone(p.Of, p)
	date := fmt.Sprintf("day %d", done)
	if job.Start.Set {
		date = job.Start.V.AddDate(0, 0, done).Format("2006-01-02")
	}
	return [][3]string{
		{"money", catalog.FormatMoney(p.Outlay), ask(job.Budget.Set, "of "+catalog.FormatMoney(job.Budget.V))},
		{"finish", fmt.Sprintf("%.1f", p.Grade), ask(job.Target.Mean.Set, "of "+catalog.FormatCenti(job.Target.Mean.V))},
		{"chance", Percent(catalog.Micro(p.Completion * 1e6)), ask(job.Completion.Set, "of "+Percent(job.Completion.V))},
		{"date", date, ask(job.WithinDays.Set, fmt.Sprintf("%d of %d days", done, job.WithinDays.V))},
	}
}

// DefectGroup is the faults of one sort.
type DefectGroup struct {
	Name string
	All  []BenchDefect
}

// BenchDefect is a fault that can be found, with what it means, and how much of it is said.
type BenchDefect struct {
	Name, Means string
	Counted     bool
}

// DefectGroups are the faults that can be found, by sort, those found most often in this job first.
func DefectGroups(st *catalog.State) []DefectGroup {
	found := make([]int, len(st.Tables.Defects))
	for i := range st.Pieces {
		for k := range st.Pieces[i].Findings {
			found[st.Pieces[i].Findings[k].Defect]++
		}
	}
	groups := []DefectGroup{{Name: "On the surface"}, {Name: "Out of shape"}, {Name: "Missing, broken or weak"}}
	var order []int
	for i := range st.Tables.Defects {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return found[b] - found[a] })
	for _, i := range order {
		d := &st.Tables.Defects[i]
		g := slices.Index([]catalog.FaultGroup{catalog.OnSurface, catalog.InShape, catalog.NotAllHere}, d.Group)
		groups[g].All = append(groups[g].All, BenchDefect{d.Name, d.Describe, d.Measure == catalog.ByCount})
	}
	return groups
}
