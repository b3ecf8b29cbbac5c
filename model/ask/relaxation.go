package ask

import (
	"cmp"
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// Relaxation is the smallest step back from one requirement with which a set fits, and
// the cheapest set that follows. Without a plan, giving it up is not enough by
// itself.
type Relaxation struct {
	Requirement Requirement
	Words       string         // what to ask for instead; "" without a plan
	State       *catalog.State // the job that asks for that; nil: the requirement is dropped
	Plan        *plan.Plan
}

// relaxations looks at every member of a clash, all other requirements kept.
func (x *explainer) relaxations(clash []int) ([]Relaxation, error) {
	var all []Relaxation
	for _, i := range clash {
		g, err := x.relax(i)
		if err != nil {
			return nil, err
		}
		if x.stopped {
			break
		}
		all = append(all, g)
	}
	slices.SortStableFunc(all, func(a, b Relaxation) int { return cmp.Compare(rankOf(&a), rankOf(&b)) })
	return all, nil
}

// rankOf puts the cheapest set first, then sets that take a piece nobody has,
// and what is not enough last.
func rankOf(g *Relaxation) catalog.Cents {
	switch {
	case g.Plan == nil || !g.Plan.Has:
		return 2 * catalog.Cents(catalog.MaxSum)
	case g.Requirement.Kind == "piece":
		return catalog.Cents(catalog.MaxSum) + g.Plan.Weighed()
	}
	return g.Plan.Weighed()
}

// without says what it is to drop a requirement.
func without(st *catalog.State, r *Requirement) string {
	switch r.Kind {
	case "piece":
		return fmt.Sprintf("with more like %s it fits", plan.PieceCalled(st, r.index))
	case "hung", "sent":
		return withoutStage(st, r)
	case "match":
		return fmt.Sprintf("if %q need not match it fits", r.Of)
	}
	return "without " + r.Words + " it fits"
}

func (x *explainer) relax(i int) (Relaxation, error) {
	r := x.all[i]
	g := Relaxation{Requirement: r}
	free := x.without(i)
	plan, err := x.solve(free, false)
	if err != nil || plan == nil || !plan.Has {
		return g, err
	}
	g.Plan, g.Words = plan, without(x.st, &r)
	var least *catalog.State
	words := ""
	switch r.Kind {
	case "budget":
		least, words, err = x.moreBudget(free, plan)
	case "mean":
		least, words, err = x.lowerMean(free)
	case "completion":
		least, words, err = x.lowerChance(free)
	case "date":
		least, words, err = x.laterDate(plan)
	case "slot":
		least, words, err = x.lowerFloor(i)
	}
	if err != nil || least == nil {
		return g, err
	}
	if plan, err = x.solve(least, false); plan != nil && plan.Has {
		g.Plan, g.State, g.Words = plan, least, words
	}
	return g, err
}
