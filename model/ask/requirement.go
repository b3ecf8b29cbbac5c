package ask

import (
	"fmt"
	"time"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// Requirement is one thing asked of the set, in the user's words, which can be
// given up by itself.
type Requirement struct {
	Kind  string // budget, mean, completion, date, lock, ban, match, slot, breakage, piece, hung, sent, bears
	Of    string // the slot, group, lock ... it is about; "" for the set
	index int    // of that, in the state
	Words string
	drop  func(st *catalog.State)
}

// Index is where what a requirement is about stands in its list of the state; 0 for the set.
func (r *Requirement) Index() int { return r.index }

// Requirements lists all that is asked: of the set first, then what the user has
// decided, then of groups, slots and pieces.
func Requirements(st *catalog.State) []Requirement {
	var all []Requirement
	add := func(kind, of string, index int, words string, drop func(*catalog.State)) {
		all = append(all, Requirement{kind, of, index, words, drop})
	}
	job := &st.Job
	if job.Budget.Set {
		on := "the outlay"
		if job.BudgetOn == catalog.OnExpected {
			on = "what is expected to be spent"
		}
		if job.BudgetOn == catalog.OnQuote {
			on = "what the owner pays"
		}
		if job.SpentSum != 0 {
			on += fmt.Sprintf(", of which %s is spent", catalog.FormatMoney(job.SpentSum))
		}
		add("budget", "", 0, fmt.Sprintf("the budget of %s on %s", catalog.FormatMoney(job.Budget.V+job.SpentSum), on),
			func(st *catalog.State) { st.Job.Budget = catalog.Val[catalog.Cents]{} })
	}
	if job.Target.Mean.Set {
		add("mean", "", 0, fmt.Sprintf("the mean grade of %s", plan.Centi(job.Target.Mean.V)),
			func(st *catalog.State) { st.Job.Target.Mean = catalog.Val[catalog.Centi]{} })
	}
	if job.Completion.Set {
		add("completion", "", 0, fmt.Sprintf("the chance of %s that no slot needs a rescue", plan.Percent(job.Completion.V)),
			func(st *catalog.State) { st.Job.Completion = catalog.Val[catalog.Micro]{} })
	}
	if job.WithinDays.Set {
		add("date", "", 0, fmt.Sprintf("the date, within %d days", job.WithinDays.V)+goneBy(st),
			func(st *catalog.State) { st.Job.WithinDays = catalog.Val[int]{} })
	}
	all = append(all, decided(st)...)
	all = append(all, ofGroups(st)...)
	for s := range st.Slots {
		all = append(all, ofSlot(st, s)...)
	}
	return append(append(all, ofPieces(st)...), ofStages(st)...)
}

// goneBy says by which entries more days are gone than there were; "" where they are not.
func goneBy(st *catalog.State) string {
	job := &st.Job
	if st.Record == nil || job.Elapsed <= job.WithinDays.V {
		return ""
	}
	by := func(day time.Time, seq int) string {
		for i := range st.Record.Entries {
			if e := &st.Record.Entries[i]; e.Seq == seq {
				return fmt.Sprintf("%s, the day of entry %d (%s)", day.Format(time.DateOnly), seq, e.Action)
			}
		}
		return day.Format(time.DateOnly)
	}
	start := job.AsOf.AddDate(0, 0, -job.Elapsed)
	return fmt.Sprintf(", of which %d are gone: from %s to %s", job.Elapsed, by(start, job.StartBy),
		by(job.AsOf, job.AsOfBy))
}

// decided are the user's locks and bans. A dropped one lets everything in.
func decided(st *catalog.State) []Requirement {
	var all []Requirement
	for i := range st.Locks {
		on := &st.Slots[st.Locks[i].Slot]
		words := "the lock on " + on.Name + reasonOf(st.Locks[i].Reason) + goneNote(st, st.Locks[i].Piece)
		all = append(all, Requirement{"lock", on.ID, i, words, func(st *catalog.State) {
			st.Locks[i].Filter = catalog.Filter{Slot: st.Locks[i].Slot, Piece: catalog.None, Plater: catalog.None}
		}})
	}
	for i := range st.Bans {
		all = append(all, Requirement{"ban", st.Bans[i].ID, i,
			fmt.Sprintf("the ban %q", st.Bans[i].ID) + reasonOf(st.Bans[i].Reason), func(st *catalog.State) {
				st.Bans[i].Filter = catalog.Filter{Slot: catalog.None, Piece: catalog.None, Work: "nothing", Plater: catalog.None}
			}})
	}
	return all
}

func reasonOf(text string) string {
	if text == "" {
		return ""
	}
	return " (" + text + ")"
}

// goneNote says that a piece the user wants is not there any more.
func goneNote(st *catalog.State, piece int) string {
	if piece == catalog.None || !st.Pieces[piece].Gone() {
		return ""
	}
	if st.Pieces[piece].Elsewhere {
		return fmt.Sprintf("; %s is in use on another job", plan.PieceCalled(st, piece))
	}
	return fmt.Sprintf("; %s is %s", plan.PieceCalled(st, piece), st.Pieces[piece].Stage)
}

func ofGroups(st *catalog.State) []Requirement {
	var all []Requirement
	for i := range st.Matches {
		m := &st.Matches[i]
		all = append(all, Requirement{"match", m.ID, i, fmt.Sprintf("that %q match", m.ID), func(st *catalog.State) {
			st.Matches[i].GradeWithin, st.Matches[i].ToneWithin = catalog.Val[catalog.Centi]{}, catalog.Val[catalog.Centi]{}
			st.Matches[i].SamePlater, st.Matches[i].FreshAlike = false, false
		}})
	}
	return all
}

// ofSlot is what is asked of what hangs in a slot, and how much may break there.
func ofSlot(st *catalog.State, s int) []Requirement {
	var all []Requirement
	slot := &st.Slots[s]
	if words := program.TargetWords(&slot.Target); words != "" {
		all = append(all, Requirement{"slot", slot.ID, s, words + " for " + slot.Name, func(st *catalog.State) {
			st.Slots[s].Target = catalog.Target{}
		}})
	}
	if slot.Bears {
		all = append(all, Requirement{"bears", slot.ID, s, "a hand or a load hangs on " + slot.Name, func(st *catalog.State) {
			st.Slots[s].Bears = false
		}})
	}
	if slot.MaxBreakage.Set {
		words := fmt.Sprintf("a breakage of at most %s for %s", plan.Percent(slot.MaxBreakage.V), slot.Name)
		all = append(all, Requirement{"breakage", slot.ID, s, words, func(st *catalog.State) {
			st.Slots[s].MaxBreakage = catalog.Val[catalog.Micro]{}
		}})
	}
	return all
}

// ofPieces: a piece that fits several slots hangs, or is held, in as many as there
// are of it.
func ofPieces(st *catalog.State) []Requirement {
	var all []Requirement
	for i := range st.Pieces {
		most := 0
		for s := range st.Slots {
			if choice.FitsSlot(&st.Pieces[i], s) {
				most += choice.Needed(&st.Slots[s])
			}
		}
		if most > choice.PieceCount(&st.Pieces[i]) {
			all = append(all, Requirement{"piece", plan.PieceName(st, i), i,
				fmt.Sprintf("there is only %d of %s", choice.PieceCount(&st.Pieces[i]), plan.PieceCalled(st, i)),
				func(st *catalog.State) {
					st.Pieces[i].Quantity = most
				}})
		}
	}
	return all
}
