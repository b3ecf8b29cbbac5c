package catalog

import (
	"cmp"
	"slices"
)

// at makes a list long enough and gives its i-th element.
func at[T any](list *[]T, i int) *T {
	for len(*list) <= i {
		var zero T
		*list = append(*list, zero)
	}
	return &(*list)[i]
}

func (l *loader) overlayGrade(t *table, i int) {
	t.need("value", "write value = 75, a grade from 0 to 100")
	l.overlayWord(at(&l.state.Tables.Grades, i), t, number(t, "value", 0, MaxGrade, 100))
}

func (l *loader) overlayTone(t *table, i int) {
	t.need("value", "write value = 2.5, its place between blue (below 0) and yellow (above)")
	l.overlayWord(at(&l.state.Tables.Tones, i), t, number(t, "value", -MaxTone, MaxTone, 100))
}

func (l *loader) overlayWord(w *Word, t *table, v Val[Centi]) {
	if w.Name == "" {
		w.Name = t.id
	}
	if v.Set {
		w.Value, w.From = v.V, v.From
	}
}

// finishWords puts the grade words in ascending order. From here on words are
// looked up by name only.
func (l *loader) finishWords() {
	slices.SortStableFunc(l.state.Tables.Grades, func(a, b Word) int { return cmp.Compare(a.Value, b.Value) })
}

func (l *loader) overlayMetal(t *table, i int) {
	m := at(&l.state.Tables.Metals, i)
	if m.Name == "" {
		m.Name, m.From = t.id, t.here()
	}
	over(&m.Base, t.share("base"))
	if s := t.text("bare"); s != "" {
		m.Bare = s
	}
	if s := t.text("note"); s != "" {
		m.Note = s
	}
}

func (l *loader) overlayTarget(t *table, i int) {
	target := at(&l.state.Tables.Targets, i)
	if target.Name == "" {
		target.Name = t.id
	}
	t.overlayGoals(target, true)
}

// overlayGoals reads what a set or a slot has to reach over what there is. It gives what
// was given.
func (t *table) overlayGoals(target *Target, withMean bool) Target {
	given := Target{
		Floor: t.grade("floor"), Fresh: t.flag("fresh"), Redone: t.flag("redone"), Lasting: t.flag("lasting"),
		FallbackFloor: t.grade("fallback_floor"),
	}
	if withMean {
		given.Mean = t.grade("mean")
	}
	target.override(given)
	return given
}
