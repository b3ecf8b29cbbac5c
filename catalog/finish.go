package catalog

import (
	"fmt"
	"slices"
)

// Tables that belong in the job's file only, and in the shop's only.
var (
	jobsOnly = []string{"job", "slot", "match", "trade", "avenue", "find", "lock", "ban", "spent", "plan",
		"share"}
	shopsOnly = []string{"shop"}
)

// checkRest reports what nobody asked for at the top level of the files.
func (l *loader) checkRest() {
	if l.job != nil {
		l.job.misplaced(shopsOnly, `this belongs in the shop's file, which [job] names with shop = "shop.toml"`)
		l.job.done()
	}
	if l.shop != nil {
		l.shop.misplaced(jobsOnly, "this belongs in the job's file")
		l.shop.done()
	}
	for _, t := range l.others {
		no := slices.Concat(jobsOnly, shopsOnly, []string{"maker", "vendor", "bundle"})
		hint := "a file that the job includes holds pieces, trade tables and platers' prices only"
		if !slices.Contains(l.parts, t) {
			no = append(no, "piece")
			hint = "an included file holds trade tables, platers' prices and breakage factors only"
		}
		t.misplaced(no, hint)
		t.done()
	}
}

// misplaced reports tables that belong in another file.
func (t *table) misplaced(kinds []string, hint string) {
	for _, k := range kinds {
		if _, there := t.m[k]; there {
			t.raw(k)
			t.wrongKey(k, fmt.Sprintf("[%s] has no place in this file", k), hint)
		}
	}
}

// checkWeights refuses slots that all weigh nothing: the set then has no mean grade, and
// one that is asked for could neither be met nor failed.
func (l *loader) checkWeights() {
	s := l.state
	if len(s.Slots) == 0 || slices.ContainsFunc(s.Slots, func(slot Slot) bool { return slot.Weight > 0 }) {
		return
	}
	first := &s.Slots[0]
	l.mistake(l.job.doc, span{line: first.From.Line, column: first.From.Column, width: len([]rune(keyText(first.ID)))},
		"no slot has any weight, so the set has no mean grade", "write weight = 1, or another number above 0, for at least "+
			"one slot; a slot without the key weighs 1")
}

// lookOver adds the warnings and checks that need the whole state.
func (l *loader) lookOver() {
	s := l.state
	if len(s.Slots) == 0 {
		l.warn(l.job.origin(l.job.place("job").key), "the job has no slots: there is nothing to plan")
	}
	l.checkWeights()
	can, enough := make([]bool, len(s.Slots)), make([]bool, len(s.Slots))
	for i := range s.Pieces {
		for _, slot := range s.Pieces[i].Fits {
			can[slot] = true
			enough[slot] = enough[slot] || s.Pieces[i].Quantity >= s.Slots[slot].Quantity
		}
	}
	for i := range s.Slots {
		slot := &s.Slots[i]
		switch {
		case !can[i]:
			l.warn(slot.From, fmt.Sprintf("nothing fits slot %q", slot.ID))
		case !enough[i]:
			l.warn(slot.From, fmt.Sprintf("slot %q needs %d pieces, and no piece that fits has that quantity", slot.ID,
				slot.Quantity))
		}
	}
	if mean := s.Job.Target.Mean; mean.Set && len(s.Slots) > 0 &&
		!slices.ContainsFunc(s.Slots, func(slot Slot) bool { return slot.Target.Floor.V <= mean.V }) {
		l.warn(mean.From, fmt.Sprintf("the mean, %s, is below the floor of every slot: it asks nothing", FormatCenti(mean.V)))
	}
	for i := range s.Tables.Metals {
		if m := &s.Tables.Metals[i]; !m.Base.Set {
			l.warn(m.From, fmt.Sprintf("metal %q has no base, its breakage in plating: pieces of it are planned on quotes only",
				m.Name))
		}
	}
	l.checkSums()
}
