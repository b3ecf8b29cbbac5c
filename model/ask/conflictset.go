package ask

import (
	"slices"
)

func (x *explainer) upTo(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// byKind leaves out whole kinds of requirements as long as what is left clashes: there
// are few kinds and many slots and pieces. Those come first whose absence makes the
// question easiest.
func (x *explainer) byKind(ask []int) ([]int, error) {
	for _, kind := range []string{"piece", "sent", "hung", "bears", "match", "breakage", "date", "slot", "ban", "lock",
		"completion", "mean", "budget"} {
		fewer := slices.DeleteFunc(slices.Clone(ask), func(i int) bool { return x.all[i].Kind == kind })
		if len(fewer) == len(ask) || len(fewer) == 0 {
			continue
		}
		ok, err := x.feasible(fewer)
		if err != nil {
			return nil, err
		}
		if !ok {
			ask = fewer
		}
	}
	return ask, nil
}

// quick gives a smallest clash within ask, keep being kept anyway. grown: keep has
// become more since it was last known that it can be met.
func (x *explainer) quick(keep []int, grown bool, ask []int) ([]int, error) {
	if grown {
		if ok, err := x.feasible(keep); err != nil || !ok {
			return nil, err
		}
	}
	if len(ask) == 1 {
		return ask, nil
	}
	first, second := ask[:len(ask)/2], ask[len(ask)/2:]
	b, err := x.quick(both(keep, first), true, second)
	if err != nil {
		return nil, err
	}
	a, err := x.quick(both(keep, b), len(b) > 0, first)
	return both(a, b), err
}

func both(a, b []int) []int { return append(slices.Clone(a), b...) }

// minimal asks whether every member left out lets the others be met, and all of
// them together do not.
func (x *explainer) minimal(clash []int) (bool, error) {
	ok, err := x.feasible(clash)
	if err != nil || ok {
		return false, err
	}
	for i := range clash {
		ok, err := x.feasible(slices.Delete(slices.Clone(clash), i, i+1))
		if err != nil || !ok {
			return false, err
		}
	}
	return !x.stopped, nil
}
