package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// Fitting gives the handwork by which a piece is made to fit a slot, or nil.
func Fitting(p *catalog.Piece, slot int) *catalog.Fit {
	for i := range p.Fit {
		if p.Fit[i].Slot == slot {
			return &p.Fit[i]
		}
	}
	return nil
}

// fit adds the handwork, where there is any: the shop's hours, its breakage as
// one more work, and its cap on the grade. A piece that hangs has it behind it.
func (d *draft) fit(st *catalog.State, slot, piece int) {
	f := Fitting(&st.Pieces[piece], slot)
	if f == nil || st.Pieces[piece].Stage == catalog.StageHung {
		return
	}
	cost := catalog.Of(f.Hours, st.Shop.Hourly.Or(0))
	d.other += cost
	d.parts = append(d.parts, plan.Part{Work: catalog.None, Doer: plan.ByShop, Maker: catalog.None, Hours: f.Hours,
		Cost: cost})
	d.breakage = catalog.Either(d.breakage, f.Breakage)
	d.grade = min(d.grade, f.Cap)
	if cost > 0 {
		d.assumptions = append(d.assumptions, shopHourly(st)...)
	}
}
