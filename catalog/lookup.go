package catalog

import (
	"path/filepath"
	"strings"
)

// PieceLabel is the id of a piece as it is shown: the plain one where it is
// unique over both files, else with "job:" or "shop:" before it.
func (s *State) PieceLabel(i int) string {
	if p := &s.Pieces[i]; !p.InBoth {
		return p.ID
	}
	return s.Pieces[i].Key()
}

// FindPiece finds a piece by its id: the job's, else the shop's; "job:ID" and
// "shop:ID" name one of them.
func (s *State) FindPiece(id string) (int, bool) {
	short := plainID(id)
	found := None
	for i := range s.Pieces {
		p := &s.Pieces[i]
		if p.ID != short || id != short && id != p.Key() {
			continue
		}
		if !p.InShop {
			return i, true
		}
		found = i
	}
	return found, found != None
}

// plainID drops "job:" or "shop:".
func plainID(id string) string {
	if short, ok := strings.CutPrefix(id, "job:"); ok {
		return short
	}
	return strings.TrimPrefix(id, "shop:")
}

func findPiece(id string, job, shop map[string]int) (int, bool) {
	short := plainID(id)
	if id == short || strings.HasPrefix(id, "job:") {
		if i, ok := job[short]; ok {
			return i, true
		}
	}
	if id == short || strings.HasPrefix(id, "shop:") {
		i, ok := shop[short]
		return i, ok
	}
	return None, false
}

// find gives the index of the first element for which is holds.
func find[T any](list []T, is func(*T) bool) (int, bool) {
	for i := range list {
		if is(&list[i]) {
			return i, true
		}
	}
	return None, false
}

// SlotIndex finds a slot by its id.
func (s *State) SlotIndex(id string) (int, bool) {
	return find(s.Slots, func(x *Slot) bool { return x.ID == id })
}

// PlaterIndex finds a plater by his id.
func (s *State) PlaterIndex(id string) (int, bool) {
	return find(s.Platers, func(x *Plater) bool { return x.ID == id })
}

// MakerIndex finds a maker by his id.
func (s *State) MakerIndex(id string) (int, bool) {
	return find(s.Makers, func(x *Maker) bool { return x.ID == id })
}

// VendorIndex finds a vendor by his id.
func (s *State) VendorIndex(id string) (int, bool) {
	return find(s.Vendors, func(x *Vendor) bool { return x.ID == id })
}

// BundleIndex finds a bundle by its id.
func (s *State) BundleIndex(id string) (int, bool) {
	return find(s.Bundles, func(x *Bundle) bool { return x.ID == id })
}

// TradeIndex finds a trade by its id.
func (s *State) TradeIndex(id string) (int, bool) {
	return find(s.Trades, func(x *Trade) bool { return x.ID == id })
}

// LevelIndex finds a level of a plater's by its name.
func (p *Plater) LevelIndex(name string) (int, bool) {
	return find(p.Levels, func(x *Level) bool { return x.Name == name })
}

// MetalIndex finds a metal by its name.
func (t *Tables) MetalIndex(name string) (int, bool) {
	return find(t.Metals, func(x *Metal) bool { return x.Name == name })
}

// DefectIndex finds a defect by its name.
func (t *Tables) DefectIndex(name string) (int, bool) {
	return find(t.Defects, func(x *Defect) bool { return x.Name == name })
}

// WorkIndex finds a trade work by its name.
func (t *Tables) WorkIndex(name string) (int, bool) {
	return find(t.Works, func(x *Work) bool { return x.Name == name })
}

// TargetIndex finds a named target.
func (t *Tables) TargetIndex(name string) (int, bool) {
	return find(t.Targets, func(x *Target) bool { return x.Name == name })
}

// GradeWord is the highest word of the grade table that a grade reaches, ""
// below them all.
func (t *Tables) GradeWord(g Centi) string {
	word := ""
	for _, w := range t.Grades {
		if w.Value <= g {
			word = w.Name
		}
	}
	return word
}

// PhotoFolder is where the photos of a piece lie: beside the file in which it stands.
func (s *State) PhotoFolder(p *Piece) string {
	if p.InShop {
		return filepath.Dir(s.Shop.File)
	}
	return filepath.Dir(s.Job.File)
}
