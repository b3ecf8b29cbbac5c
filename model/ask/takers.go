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

// Takers gives works that somebody would have to be found for, so that every slot
// which nothing fills now, and something would if all works had a taker, is filled; and the
// state in which somebody does them. They are the fewest where one or two will do, else such that
// none can be left out. None where no slot waits for that.
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
	works = fewest(works, func(some []int) bool {
		with := choice.WithTakers(st, some)
		return !slices.ContainsFunc(waiting, func(s int) bool { return !fillable(with, s) })
	})
	var all []Taker
	for _, u := range untaken {
		if slices.Contains(works, u.Work) {
			all = append(all, takerOf(st, u.Work, waiting))
		}
	}
	return all, choice.WithTakers(st, works)
}

// fewest is one of them that will do, else two, else what is left once none can be left out.
func fewest(all []int, do func(some []int) bool) []int {
	for i := range all {
		if one := all[i : i+1]; do(one) {
			return one
		}
	}
	for i := range all {
		for j := range i {
			if two := []int{all[j], all[i]}; do(two) {
				return two
			}
		}
	}
	left := all
	for _, w := range all {
		if fewer := slices.DeleteFunc(slices.Clone(left), func(v int) bool { return v == w }); do(fewer) {
			left = fewer
		}
	}
	return left
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
