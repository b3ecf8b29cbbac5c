package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/program"
)

// Taker is a work that nobody does, and that is missed: the slots that nothing fills for
// want of it, and the pieces that wait for it.
type Taker struct {
	Work          int
	Slots, Pieces []int
}

// Takers gives the fewest works that somebody would have to be found for, so that every slot
// which nothing fills now, and something would if all works had a taker, is filled; and the
// state in which somebody does them. None where no slot waits for that.
func Takers(st *catalog.State) ([]Taker, *catalog.State) {
	untaken := choice.UntakenWorks(st)
	if len(untaken) == 0 {
		return nil, st
	}
	var works, waiting []int
	for _, u := range untaken {
		works = append(works, u.Work)
	}
	with := choice.WithTakers(st, works)
	for s := range st.Slots {
		if !fillable(st, s) && fillable(with, s) {
			waiting = append(waiting, s)
		}
	}
	if len(waiting) == 0 {
		return nil, st
	}
	for _, u := range untaken { // as few as will do
		fewer := slices.DeleteFunc(slices.Clone(works), func(w int) bool { return w == u.Work })
		less := choice.WithTakers(st, fewer)
		if !slices.ContainsFunc(waiting, func(s int) bool { return !fillable(less, s) }) {
			works, with = fewer, less
		}
	}
	var all []Taker
	for _, u := range untaken {
		if slices.Contains(works, u.Work) {
			all = append(all, takerOf(st, u.Work, waiting))
		}
	}
	return all, with
}

// takerOf is a work with those of the slots that wait for it.
func takerOf(st *catalog.State, work int, waiting []int) Taker {
	t := Taker{Work: work}
	for _, s := range waiting {
		for i := range st.Pieces {
			if p := &st.Pieces[i]; choice.FitsSlot(p, s) && !p.Gone() && choice.ToDo(st, p, work) {
				t.Slots = append(t.Slots, s)
				t.Pieces = append(t.Pieces, i)
			}
		}
	}
	slices.Sort(t.Pieces)
	t.Slots, t.Pieces = slices.Compact(t.Slots), slices.Compact(t.Pieces)
	return t
}

// fillable says whether anything by itself is good enough for a slot.
func fillable(st *catalog.State, s int) bool {
	all := choice.ChoicesFor(st, s)
	for k := range all {
		if len(program.Admit(st, &all[k], program.Planned)) == 0 {
			return true
		}
	}
	return false
}
