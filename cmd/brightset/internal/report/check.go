package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// Check writes what the files say about every slot: what it asks for, the pieces
// that may fill it, what can be done to each, and what is out and why. With
// only >= 0 just that slot is shown.
func Check(st *catalog.State, choices [][]plan.Choice, outs [][]choice.Exclusion, only int) string {
	var b strings.Builder
	b.WriteString(Paragraph("", "", st.Job.Title+" (all sums in "+st.Job.Currency+")"))
	var empty []string
	for s := range st.Slots {
		if admittedIn(st, choices[s]) == 0 {
			empty = append(empty, st.Slots[s].Name)
		}
		if only < 0 || only == s {
			b.WriteString("\n" + slotText(st, s) + slotTable(st, choices[s], outs[s]))
		}
	}
	b.WriteString("\n" + Paragraph("", "", counts(st, choices)))
	if len(empty) > 0 {
		b.WriteString(Paragraph("", "  ", "Nothing is good enough for: "+strings.Join(empty, ", ")+
			". As things stand there is no plan."))
	}
	if w := list("Worth knowing:", checkWarnings(st, choices)); w != "" {
		b.WriteString("\n" + w)
	}
	return b.String()
}

// checkWarnings are those of the files and of every choice.
func checkWarnings(st *catalog.State, choices [][]plan.Choice) []string {
	var all []string
	for _, w := range st.Warnings {
		all = append(all, warningText(w))
	}
	for _, list := range choices {
		for i := range list {
			all = append(all, list[i].Warnings...)
		}
	}
	return unique(all)
}

func admittedIn(st *catalog.State, list []plan.Choice) int {
	n := 0
	for i := range list {
		if len(program.Admit(st, &list[i], program.Planned)) == 0 {
			n++
		}
	}
	return n
}

func counts(st *catalog.State, choices [][]plan.Choice) string {
	all, in := 0, 0
	for _, list := range choices {
		all += len(list)
		in += admittedIn(st, list)
	}
	return fmt.Sprintf("%s, %s, %s, %d of them good enough for the target.",
		count(len(st.Slots), "slot"), count(len(st.Pieces), "piece"), count(all, "choice"), in)
}

// slotText says what a slot asks for.
func slotText(st *catalog.State, s int) string {
	slot := &st.Slots[s]
	t := &slot.Target
	var asks []string
	if slot.Quantity > 1 {
		asks = append(asks, fmt.Sprintf("needs %d", slot.Quantity))
	}
	if t.Floor.Set {
		asks = append(asks, "grade "+catalog.FormatCenti(t.Floor.V)+" at least")
	}
	switch {
	case t.Redone.Or(false):
		asks = append(asks, "refinished")
	case t.Fresh.Or(false):
		asks = append(asks, "freshly finished")
	}
	if t.Lasting.Or(false) {
		asks = append(asks, "no fault that goes on growing")
	}
	if t.FallbackFloor.Set {
		asks = append(asks, "fallback "+catalog.FormatCenti(t.FallbackFloor.V)+" at least")
	}
	if slot.Keep > 0 {
		asks = append(asks, "keeping the object's own is worth "+catalog.FormatMoney(slot.Keep)+" (no money)")
	}
	if slot.Bears {
		asks = append(asks, "bears a hand or a load")
	}
	if slot.MaxBreakage.Set {
		asks = append(asks, "breakage "+Percent(slot.MaxBreakage.V)+" at most")
	}
	if slot.Area.Set {
		asks = append(asks, areaText(slot))
	}
	asks = append(asks, "rescue "+catalog.FormatMoney(slot.Rescue.V))
	return Paragraph("", "  ", plan.SlotCalled(st, s)+": "+strings.Join(asks, ", "))
}

// slotTable has a row for everything that can be done with every piece, and
// says what can't. Choices and what is out come in the order of the pieces.
func slotTable(st *catalog.State, list []plan.Choice, outs []choice.Exclusion) string {
	t := NewTable("piece, and what is done to it by whom", ">cost", ">breaks", ">grade", ">days")
	for len(list)+len(outs) > 0 {
		i := nextPiece(list, outs)
		t.Span(0, pieceText(st, i))
		for ; len(list) > 0 && list[0].Piece == i; list = list[1:] {
			c := &list[0]
			t.Row("  "+work(st, c), catalog.FormatMoney(choice.IfItComes(st, c)), Percent(c.Breakage),
				catalog.FormatCenti(c.Grade), fmt.Sprint(c.Days))
			if why := verdictOn(st, c); why != "" {
				t.Span(4, why)
			}
		}
		n := 0
		for n < len(outs) && outs[n].Piece == i {
			n++
		}
		for _, text := range cant(st, i, outs[:n]) {
			t.Span(2, text)
		}
		outs = outs[n:]
	}
	if len(t.rows) == 0 {
		return "  no piece fits this slot\n"
	}
	return t.String()
}

// nextPiece is the first piece of either list.
func nextPiece(list []plan.Choice, outs []choice.Exclusion) int {
	switch {
	case len(list) == 0:
		return outs[0].Piece
	case len(outs) == 0:
		return list[0].Piece
	}
	return min(list[0].Piece, outs[0].Piece)
}

// pieceText names a piece and whose it is.
func pieceText(st *catalog.State, i int) string {
	p := &st.Pieces[i]
	text := plan.PieceCalled(st, i) + ": " + string(p.Kind) + ", " + source(st, p)
	if p.Chance < catalog.One {
		text += ", which may come (" + Percent(p.Chance) + ")"
		if p.Price > 0 {
			text += " for " + catalog.FormatMoney(p.Price)
		}
	}
	if p.Bundle != catalog.None && st.Bundles[p.Bundle].Box > 0 {
		b := &st.Bundles[p.Bundle]
		text += fmt.Sprintf("; in boxes of %d at %s, each with its share", b.Box, catalog.FormatMoney(b.Price))
	} else if p.Bundle != catalog.None {
		text += fmt.Sprintf("; out of bundle %s, %s for %d, each with its share", st.Bundles[p.Bundle].ID,
			catalog.FormatMoney(st.Bundles[p.Bundle].Price), choice.BundleCount(st, p.Bundle))
	}
	return text
}

// work is the way of a choice, and as what the piece is graded that nothing is done to.
func work(st *catalog.State, c *plan.Choice) string {
	text := plan.WayOnQuote(st, c)
	if c.Work == catalog.WorkAsIs {
		if word := gradeWord(st, c.Grade); word != "" {
			text += ", graded " + word
		}
	}
	return text
}

// verdictOn says why a choice is out, or good for a fallback only.
func verdictOn(st *catalog.State, c *plan.Choice) string {
	reasons := program.Admit(st, c, program.Planned)
	if len(reasons) == 0 {
		return ""
	}
	head := "out: "
	if len(program.Admit(st, c, program.Reserve)) == 0 {
		head = "as a fallback only: "
	}
	return head + whys(reasons)
}

func whys(reasons []program.Reason) string {
	text := make([]string, len(reasons))
	for i, r := range reasons {
		text[i] = r.Why
	}
	return strings.Join(text, "; ")
}

// cant lists what of a slot can't be done with a piece; platers and levels with
// the same reason share a row.
func cant(st *catalog.State, piece int, outs []choice.Exclusion) []string {
	var why []string
	who := map[string][]string{}
	for _, o := range outs {
		if o.Piece != piece {
			continue
		}
		name := plan.WayOf(st, o.Work, o.Plater, o.Level)
		if _, seen := who[o.Why]; !seen {
			why = append(why, o.Why)
		}
		who[o.Why] = append(who[o.Why], name)
	}
	rows := make([]string, len(why))
	for i, w := range why {
		names := strings.Join(unique(who[w]), "; ")
		if names == "" {
			names = "at all"
		}
		rows[i] = "not " + names + ": " + w
	}
	return rows
}

// areaText is the surface of a position in the unit in which it was given.
func areaText(slot *catalog.Slot) string {
	if slot.AreaWritten != "" {
		return slot.AreaWritten
	}
	return catalog.FormatArea(slot.Area.V)
}
