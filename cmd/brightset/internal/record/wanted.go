package record

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// wanted is the one thing a plater can do with a piece that fits what was said; where
// several do, the one in the plan that was kept.
func (b *builder) wanted(i, q int, f *Facts) (*plan.Choice, error) {
	var fits []*plan.Choice
	for s, choices := range choice.Choices(b.st) {
		for k := range choices {
			c := &choices[k]
			if c.Piece != i || c.Plater != q || !meantBy(f.Work, c.Work) || !meantBy(f.Level, c.Level) ||
				(f.Slot != "" && b.st.Slots[s].ID != f.Slot) {
				continue
			}
			fits = append(fits, c)
		}
	}
	if len(fits) == 0 {
		return nil, b.cant(i, q, f)
	}
	if len(fits) == 1 {
		return fits[0], nil
	}
	for _, c := range fits {
		if plan.IsKept(b.st, c) {
			return c, nil
		}
	}
	if b.alike(fits) {
		return fits[0], nil
	}
	return nil, fmt.Errorf("%s can do more than one thing with %s; say which: %s", b.st.Platers[q].ID, b.name(i),
		b.ways(fits))
}

// cant says why a plater can do nothing with a piece that fits what was said.
func (b *builder) cant(i, q int, f *Facts) error {
	who, said := b.st.Platers[q].ID, flags("slot", f.Slot, "work", f.Work, "level", f.Level)
	if f.Slot != "" {
		if s, err := b.slot(f.Slot); err != nil {
			return err
		} else if !slices.Contains(b.st.Pieces[i].Fits, s) {
			return fmt.Errorf("%s doesn't fit %s; leave --slot out, or name another", b.name(i), f.Slot)
		}
	}
	if said != "" {
		c, err := b.wanted(i, q, &Facts{})
		if err == nil {
			return fmt.Errorf("%s can't do that with %s, but this: %s", who, b.name(i), b.ways([]*plan.Choice{c}))
		}
		return err
	}
	if k := b.inTheWay(i, f); k != catalog.None {
		hangs := &b.st.Pieces[k]
		return fmt.Errorf("%s hangs in %s, so %s is not wanted there; if it was taken down, first type: brightset record "+
			"unhung %s", b.name(k), b.st.Slots[hangs.HungIn].ID, b.name(i), b.typed(k))
	}
	return fmt.Errorf("%s has named no price for %s, and there is no estimate of what he would make of it; if he took "+
		"it, first record his price: brightset record quoted %s --to %s --cost 120.00 --grade 85", who, b.name(i), b.typed(i),
		InShell(who))
}

// inTheWay is a piece that hangs where another is to go, if something hangs in all of its
// slots; catalog.None otherwise.
func (b *builder) inTheWay(i int, f *Facts) int {
	found := catalog.None
	for _, s := range b.st.Pieces[i].Fits {
		if f.Slot != "" && b.st.Slots[s].ID != f.Slot {
			continue
		}
		at := slices.IndexFunc(b.st.Pieces, func(p catalog.Piece) bool {
			return p.Stage == catalog.StageHung && p.HungIn == s && !p.Gone()
		})
		if at < 0 {
			return catalog.None
		}
		found = at
	}
	return found
}

// ways are the flags that tell choices apart. The slot is one only where it makes a
// difference.
func (b *builder) ways(all []*plan.Choice) string {
	bySlot := slices.ContainsFunc(all, func(c *plan.Choice) bool {
		return !b.alike(slices.DeleteFunc(slices.Clone(all), func(o *plan.Choice) bool {
			return o.Work != c.Work ||
				o.Level != c.Level
		}))
	})
	byWork := slices.ContainsFunc(all, func(c *plan.Choice) bool { return c.Work != all[0].Work })
	var names []string
	for _, c := range all {
		pairs := []string{"level", c.Level}
		if byWork || c.Level == "" {
			pairs = append(pairs, "work", c.Work)
		}
		if bySlot {
			pairs = append(pairs, "slot", b.st.Slots[c.Slot].ID)
		}
		if name := flags(pairs...); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names[:min(4, len(names))], ", or ")
}

// alike says whether it makes no difference for which slot a piece is sent.
func (b *builder) alike(fits []*plan.Choice) bool {
	first := choice.Terms(b.st, fits[0])
	for _, c := range fits[1:] {
		if !reflect.DeepEqual(choice.Terms(b.st, c), first) ||
			b.st.Slots[c.Slot].Quantity != b.st.Slots[fits[0].Slot].Quantity {
			return false
		}
	}
	return true
}
