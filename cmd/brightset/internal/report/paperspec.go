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
func (t together) specSheet(lot *paper.CommonLot) *page.Page {
	g := page.NewGrid("piece", "use", "=code", "=layers, each at least")
	var sources []string
	for _, part := range lot.Parts {
		sources = append(sources, t.specRows(g, &part)...)
	}
	if len(g.Rows) == 0 {
		return nil
	}
	first := t[lot.Parts[0].Job]
	q := &first.Plan.Of.Platers[lot.Parts[0].Plater]
	sheet := first.sheet(fileName("spec", q.ID), "What open standards ask", "for talking to "+q.Name)
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

// specRows adds a row for each piece of one job, and gives where that comes from.
func (t together) specRows(g *page.Grid, part *paper.LotPart) (sources []string) {
	p := t[part.Job]
	for _, i := range part.Lines {
		l := &p.Plan.Lines[i]
		spec, why := paper.SpecOf(p.Plan.Of, l.Slot, l.Choice.Piece)
		if spec.Service == 0 {
			continue
		}
		piece := p.Plan.PieceOf(l.Choice)
		name := fmt.Sprintf("%s\ntag %s, %s", p.Plan.SlotOf(l).Name, t.marked(part.Job, tagOf(piece)),
			metalText(p.Plan.Of, piece))
		if why != "" {
			g.Row(name, spec.Service.Means(), "", why)
			continue
		}
		g.Row(name, fmt.Sprintf("%s: %s", spec.Service, spec.Service.Means()), spec.Code.String(),
			strings.Join(spec.Layers(inInches(p.Plan.SlotOf(l))), "\n"))
		sources = append(sources, spec.Code.String()+": "+spec.Origin())
	}
	return sources
}

// inInches says whether the user measures a position in inches or feet.
func inInches(slot *catalog.Slot) bool {
	return slices.ContainsFunc([]string{"in", "ft"}, func(unit string) bool {
		return strings.Contains(strings.ToLower(slot.AreaWritten), unit)
	})
}
