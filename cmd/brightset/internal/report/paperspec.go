package report

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/standard"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/paper"
)

// specSheet is what open standards say of the pieces on an order, for talking to the plater;
// where it comes from stands at its foot. nil where no piece has a condition of service.
func (p *Papers) specSheet(lot *paper.Lot) *page.Page {
	st := p.Plan.Of
	q := &st.Platers[lot.Plater]
	now := paper.GoesNow(p.Plan, *lot, p.held())
	g := page.NewGrid("piece", "use", "code", "layers, each at least")
	var sources []string
	for _, i := range now.Lines {
		l := &p.Plan.Lines[i]
		spec, why := paper.SpecOf(st, l.Slot, l.Choice.Piece)
		if spec.Service == 0 {
			continue
		}
		name := fmt.Sprintf("%s\ntag %s, %s", p.Plan.SlotOf(l).Name, tagOf(p.Plan.PieceOf(l.Choice)),
			metalText(st, p.Plan.PieceOf(l.Choice)))
		if why != "" {
			g.Row(name, spec.Service.Means(), "", why)
			continue
		}
		g.Row(name, fmt.Sprintf("%s: %s", spec.Service, spec.Service.Means()), spec.Code.String(),
			strings.Join(spec.Layers(inInches(p.Plan.SlotOf(l))), "\n"))
		sources = append(sources, spec.Code.String()+": "+spec.Origin())
	}
	if len(g.Rows) == 0 {
		return nil
	}
	sheet := p.sheet(fileName("spec", q.ID), "What open standards ask", "for talking to "+q.Name)
	sheet.Blocks = []page.Block{
		{Text: []string{"Information, not an instruction: what is ordered stands on the work order. " +
			"Baths, currents and times are the plater's."}},
		{Grid: g},
		{List: []string{sentence(standard.Significant), sentence(standard.Surfaces), sentence(standard.Viewing),
			sentence(standard.Rated)}},
		{Small: append(unique(sources), "The words for the conditions of use are from memory of ASTM B456.")},
	}
	return sheet
}

// inInches says whether the user measures a position in inches or feet.
func inInches(slot *catalog.Slot) bool {
	return slices.ContainsFunc([]string{"in", "ft"}, func(unit string) bool {
		return strings.Contains(strings.ToLower(slot.AreaWritten), unit)
	})
}
