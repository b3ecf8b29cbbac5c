package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/choice"
	"brightset/model/paper"
	"brightset/model/plan"
)

// benchSheet is what the shop does itself, with the pieces that are held back.
func (p *Papers) benchSheet() *page.Page {
	st := p.Plan.Of
	sheet := p.sheet("bench", "On the shop's own bench", "")
	sheet.Blocks = append(sheet.Blocks, p.waiting()...)
	sheet.Blocks = append(sheet.Blocks, p.walkAway()...)
	var before, after []string
	for i := range p.Plan.Lines {
		l := &p.Plan.Lines[i]
		for _, part := range l.Choice.Parts {
			if part.Doer != plan.ByShop {
				continue
			}
			text := fmt.Sprintf("%s: %s, %s h", job(st, l), partName(st, part), catalog.FormatMicro(part.Hours))
			if l.Choice.Plated() && !choice.GoesBefore(st, part) {
				after = append(after, text)
			} else {
				before = append(before, text)
			}
		}
	}
	if len(before) > 0 {
		sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "Work", Ticks: before})
	}
	if len(after) > 0 {
		sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "When they are back", Ticks: after})
	}
	g := page.NewGrid("slot", "piece", "how", "held in reserve")
	g.Caption = "What is to hang where"
	for i := range p.Plan.Lines {
		l := &p.Plan.Lines[i]
		held := ""
		if l.Fallback != nil {
			held = plan.PieceName(st, l.Fallback.Piece) + ", " + plan.Way(st, l.Fallback)
		} else if l.Choice.Fails > 0 {
			held = "a rescue"
		}
		how := plan.Way(st, l.Choice)
		if word := gradeWord(st, l.Choice.Grade); l.Choice.Work == catalog.WorkAsIs && word != "" {
			how += ", " + word
		}
		g.Row(st.Slots[l.Slot].Name, plan.PieceName(st, l.Choice.Piece), how, held)
	}
	sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "The set", Grid: g}, page.Block{Care: benchCare})
	return sheet
}

// bundleFor names the slots that a bundle's pieces are for.
func bundleFor(pl *plan.Plan, bundle int) string {
	var all []string
	for i := range pl.Lines {
		l := &pl.Lines[i]
		for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
			if c != nil && pl.PieceOf(c).Bundle == bundle {
				all = append(all, pl.SlotOf(l).Name)
			}
		}
	}
	return join(unique(all))
}

// leftSheet is what is not used, and whose it is.
func (t together) leftSheet() *page.Page {
	g := page.NewGrid("piece", ">pieces", "whose", "what to do with it")
	for _, s := range paper.CommonLeftover(t.plans()) {
		st := t[s.Job].Plan.Of
		piece, name := &st.Pieces[s.Piece], plan.PieceName(st, s.Piece)
		if !piece.InShop {
			name = t.marked(s.Job, name)
		}
		g.Row(name, fmt.Sprint(s.Quantity), source(st, piece), s.Advice)
	}
	if len(g.Rows) == 0 {
		return nil
	}
	sheet := t[0].sheet("left-over", "Left over, and whose it is", "")
	sheet.Blocks = []page.Block{{Grid: g, Small: []string{"Nothing is thrown away before the set hangs."}}}
	return sheet
}

func join(all []string) string { return strings.Join(all, ", ") }
