package ask

import (
	"slices"

	"brightset/catalog"
)

// sameUse says whether two finds for a slot are used in the same way and worth the same, as
// far as that is proven.
func (f *Find) sameUse(g *Find) bool {
	a, b := f.Choice, g.Choice
	return f.Slot == g.Slot && f.Worth == g.Worth && f.Most == g.Most && f.Stopped == g.Stopped &&
		a.Work == b.Work && a.Plated() == b.Plated() &&
		(!a.Plated() || a.Plater == b.Plater && a.Level == b.Level)
}

// Rows puts finds that are used in the same way and worth the same together: to whoever
// looks for them they are one. Rows and their finds stand in the order of Finds.
func (h *Hunted) Rows() [][]*Find {
	var rows [][]*Find
	for i := range h.Finds {
		f := &h.Finds[i]
		at := slices.IndexFunc(rows, func(row []*Find) bool { return row[0].sameUse(f) })
		if at < 0 {
			rows = append(rows, []*Find{f})
			continue
		}
		rows[at] = append(rows[at], f)
	}
	return rows
}

// MetalTaken is a metal that finds for some slots are taken to be of: what working on them
// costs and how often they break goes by it.
type MetalTaken struct {
	Metal int
	Slots []int
}

// MetalsTaken are the metals of the finds that have to be worked on, in the order of Finds.
func (h *Hunted) MetalsTaken() []MetalTaken {
	var all []MetalTaken
	for i := range h.Finds {
		f := &h.Finds[i]
		if !f.Choice.Plated() && f.Choice.Work != catalog.WorkClean {
			continue
		}
		at := slices.IndexFunc(all, func(m MetalTaken) bool { return m.Metal == f.Metal })
		if at < 0 {
			at = len(all)
			all = append(all, MetalTaken{Metal: f.Metal})
		}
		if one := &all[at]; !slices.Contains(one.Slots, f.Slot) {
			one.Slots = append(one.Slots, f.Slot)
		}
	}
	return all
}
