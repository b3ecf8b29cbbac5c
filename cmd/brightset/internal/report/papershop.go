package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
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
			if part.Work == catalog.None && l.Choice.Plated() {
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
	g := page.NewGrid("position", "piece", "how", "held in reserve")
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

// huntSheet is a list to carry.
func (p *Papers) huntSheet() *page.Page {
	h := p.Hunted
	if h == nil {
		return nil
	}
	st := p.Plan.Of
	g := page.NewGrid("", "for", "look out for, good enough", "to be used", ">pay at most", "=by")
	last := ""
	if st.Job.WithinDays.Set && st.Job.Start.Set {
		last = st.Job.Start.V.AddDate(0, 0, st.Job.WithinDays.V).Format("2006-01-02")
	}
	for _, row := range h.Rows() {
		f := row[0]
		by := last
		if last != "" && f.Choice.Days > 0 {
			by = st.Job.Start.V.AddDate(0, 0, st.Job.WithinDays.V-f.Choice.Days).Format("2006-01-02")
		}
		g.Row("☐", st.Slots[f.Slot].Name, profiles(row), plan.BriefWay(st, f.Choice), worth(st, f), by)
	}
	if len(g.Rows) == 0 && h.Whole {
		return nil
	}
	sheet := p.sheet("hunt", "To hunt for", fmt.Sprintf("top prices in %s, freight to the door included", st.Job.Currency))
	sheet.Blocks = []page.Block{{Grid: g, Small: []string{huntNote(h)}}}
	if !h.Whole {
		sheet.Blocks[0].Small = append(sheet.Blocks[0].Small, "Stopped early: not every find was looked at to the end.")
	}
	if pairs := pairTexts(h); len(pairs) > 0 {
		sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "Worth something else together", List: pairs})
	}
	if tries := tourTicks(h); len(tries) > 0 {
		sheet.Blocks = append(sheet.Blocks, tries...)
	}
	return sheet
}

// tourTicks are the places to try, in order.
func tourTicks(h *ask.Hunted) []page.Block {
	st := h.Plan.Of
	var all []page.Block
	for _, t := range ask.Tours(st, h) {
		b := page.Block{Heading: fmt.Sprintf("Where to look for: %s", st.Slots[t.Find.Slot].Name)}
		for _, try := range t.Tries {
			a := &st.Avenues[try.Avenue]
			where := a.Where
			if where == "" {
				where = a.ID
			}
			b.Ticks = append(b.Ticks, fmt.Sprintf("%s: %s a try, likely at %s; leave it out once one is had for %s or less",
				where, catalog.FormatMoney(a.Cost), catalog.FormatMoney(a.Likely), catalog.FormatMoney(try.Reserve)))
		}
		all = append(all, b)
	}
	return all
}

func join(all []string) string { return strings.Join(all, ", ") }
