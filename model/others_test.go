package model

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// othersOf gives the advised plan and those beside it; nil where there is no plan.
func othersOf(t *testing.T, st *catalog.State, n, differ int) (*Plan, []Other) {
	t.Helper()
	ctx := context.Background()
	advised, err := Solve(ctx, st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if !advised.Has {
		return nil, nil
	}
	all, err := Others(ctx, st, advised, n, differ, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return advised, all
}

// otherwise counts the slots of a set of lines that a plan fills otherwise: what it
// has anywhere is no change if there is but one of the piece, written from the words.
func otherwise(st *catalog.State, x *Plan, lines []*bruteLine) int {
	n := 0
	for _, l := range lines {
		change := true
		for i := range x.Lines {
			c := x.Lines[i].Choice
			same := c.Piece == l.k.Piece && c.Work == l.k.Work && c.Plater == l.k.Plater && c.Level == l.k.Level && c.Quote == l.k.Quote
			if same && (x.Lines[i].Slot == l.k.Slot || st.Pieces[c.Piece].Quantity <= 1) {
				change = false
			}
		}
		if change {
			n++
		}
	}
	return n
}

// TestOthersAgainstBrute: every near-best plan costs what the cheapest set of lines
// costs that differs enough from all before it, by trying all sets.
func TestOthersAgainstBrute(t *testing.T) {
	plans, ends := 0, 0
	for seed := range int64(70) {
		differ := 1 + int(seed%3)
		st := randomState(3000+seed, 2+int(seed%3), randomOptions{})
		advised, all := othersOf(t, st, 4, differ)
		found := []*Plan{advised}
		for _, o := range all {
			if o.Kind != OtherNear {
				continue
			}
			b := newBrute(st)
			b.refuse = func(lines []*bruteLine) bool {
				for _, x := range found {
					if otherwise(st, x, lines) < differ {
						return true
					}
				}
				return false
			}
			b.search(0)
			if b.has != o.Plan.Has || b.has && b.total != o.Plan.Expected {
				t.Errorf("seed %d, other %d at %d slots: %d (%v), by trying all %d (%v)", 3000+seed, len(found), differ, o.Plan.Expected, o.Plan.Has, b.total, b.has)
			}
			if !o.Plan.Has {
				ends++
				break
			}
			plans++
			found = append(found, o.Plan)
		}
	}
	if plans < 60 || ends < 5 {
		t.Errorf("only %d other plans and %d ends of the list", plans, ends)
	}
}

// TestDoLeastAgainstBrute: nothing keeps more, and nothing that keeps as much is
// cheaper, by trying all sets.
func TestDoLeastAgainstBrute(t *testing.T) {
	dearer := 0
	for seed := range int64(70) {
		st := randomState(4000+seed, 2+int(seed%3), randomOptions{})
		plan, err := DoLeast(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		cheapest, ok, _ := bruteForce(st)
		if ok != plan.Has {
			t.Errorf("seed %d: a plan %v, by trying all %v", 4000+seed, plan.Has, ok)
		}
		if !plan.Has {
			continue
		}
		weight := func(k *Choice) int64 {
			if st.Pieces[k.Piece].Side == catalog.Customers && (k.Work == "as-is" || k.Work == "clean") {
				return int64(st.Slots[k.Slot].Weight)
			}
			return 0
		}
		has := int64(0)
		for i := range plan.Lines {
			has += weight(plan.Lines[i].Choice)
		}
		for _, more := range []int64{0, 1} {
			b := newBrute(st)
			b.refuse = func(lines []*bruteLine) bool {
				sum := int64(0)
				for _, l := range lines {
					sum += weight(l.k)
				}
				return sum < has+more
			}
			b.search(0)
			if more == 1 && b.has || more == 0 && b.total != plan.Expected {
				t.Errorf("seed %d: do-least keeps %d at %d; by trying all %d is had at %d (%v)", 4000+seed, has, plan.Expected, has+more, b.total, b.has)
			}
		}
		if int64(plan.Expected) > cheapest {
			dearer++
		}
	}
	if dearer < 5 {
		t.Errorf("do-least differs from the cheapest in only %d jobs", dearer)
	}
}

// TestOthersBeside: best finish and the plan without locks are what solving by hand
// gives; on the demo the near-best plans rise and lie far enough apart.
func TestOthersBeside(t *testing.T) {
	st, err := catalog.Load("../testdata/locked/job.toml", catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	_, all := othersOf(t, st, 2, 1)
	free := st.Clone()
	free.Locks = nil
	open, _ := Solve(context.Background(), free, solver.Settings{})
	best, _ := Best(context.Background(), st, solver.Settings{})
	want := map[OtherKind]*Plan{OtherUnlocked: open, OtherFinest: best}
	for _, o := range all {
		if w := want[o.Kind]; w != nil && (o.Plan.Expected != w.Expected || o.Plan.Grade != w.Grade) {
			t.Errorf("%s: %d, by hand %d", o.Kind, o.Plan.Expected, w.Expected)
		}
		delete(want, o.Kind)
	}
	if len(want) > 0 {
		t.Errorf("not shown: %v", want)
	}

	advised, near := othersOf(t, demoState(t), 4, 3)
	last := advised.Expected
	for _, o := range near[:4] {
		if o.Plan.Expected < last || o.Differ < 3 {
			t.Errorf("%d after %d, %d slots differ", o.Plan.Expected, last, o.Differ)
		}
		last = o.Plan.Expected
	}
	if near[4].Kind != OtherLeast || len(near) != 6 {
		t.Errorf("%d plans, without locks there should be 6", len(near))
	}
}
