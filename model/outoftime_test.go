package model

import (
	"cmp"
	"context"
	"reflect"
	"slices"
	"testing"
	"time"

	"brightset/catalog"
	"brightset/solver"
)

// outOfTime is a context whose time is up already.
func outOfTime(t *testing.T) context.Context { return within(t, -time.Second) }

func within(t *testing.T, limit time.Duration) context.Context {
	ctx, stop := context.WithTimeout(context.Background(), limit)
	t.Cleanup(stop)
	return ctx
}

// gainOf is what the best set costs less than the plan if a figure turns out one way,
// with everything worked out from nothing.
func gainOf(ctx context.Context, st *catalog.State, plan *Plan, w *turnout, set solver.Settings) (gain catalog.Cents, proven bool, err error) {
	opt := Options{FixedLimits: true, Adjust: w.choice}
	find := func(c *Choice) *Choice {
		k := *c
		w.choice(&k)
		k.addUp()
		return &k
	}
	if w.choice == nil {
		st = st.Clone()
		w.state(st)
		find = func(c *Choice) *Choice { return findSame(choicesFor(st, c.Slot), c) }
	}
	regardless := carriedOut(st, plan, find)
	if w.gone != nil {
		st = st.Clone()
		w.gone(st)
	}
	return savedBy(ctx, Compile(st, opt), regardless, 1, set)
}

const minute = time.Minute

func equalProblems(a, b *solver.Problem) bool { return reflect.DeepEqual(a, b) }

// samePairs compares lines whatever their order.
func samePairs(a, b []Pair) bool {
	order := func(p, q Pair) int { return cmp.Or(cmp.Compare(p.K, q.K), cmp.Compare(p.F, q.F)) }
	a, b = slices.Clone(a), slices.Clone(b)
	slices.SortFunc(a, order)
	slices.SortFunc(b, order)
	return slices.Equal(a, b)
}
