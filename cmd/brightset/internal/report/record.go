package report

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// Done is what a command has recorded.
type Done struct {
	Entry int // of the journal
	Text  string
	Next  *Next // nil: it isn't known for certain
}

// Next is what is to be done after something was recorded.
type Next struct {
	Plan *plan.Plan
	Acts []paper.Act
}

// nextText is the first thing to do, on one line.
func nextText(n *Next) string {
	switch {
	case n == nil:
		return "Next: brightset plan\n"
	case !n.Plan.Has:
		return "Next: nothing meets the target any more; brightset plan says why.\n"
	case len(n.Acts) == 0:
		return "Next: " + nothingToDo(n.Plan) + "\n"
	}
	first := errandOf(n.Plan.Of, &n.Acts[0])
	return first.row("Next: ") + "\n"
}

// Recorded confirms what was recorded, and says what it means for money and for pieces.
func Recorded(before, st *catalog.State, done Done) string {
	text := Paragraph("", "", fmt.Sprintf("Recorded: %s (entry %d).", done.Text, done.Entry))
	if before == nil {
		return text + nextText(done.Next)
	}
	news := catalog.NewsOf(before, st, done.Entry)
	text += spentText(st, &news)
	for i := range news.Joined {
		text += Paragraph("  ", "  ", joinedText(before, st, &news.Joined[i]))
	}
	for _, n := range news.Pieces {
		p := &st.Pieces[n.Piece]
		if n.Rest {
			text += Paragraph("  ", "  ", fmt.Sprintf("The rest of %s, %d of them, is called %s from now on.", n.Was.ID,
				p.Quantity, st.PieceLabel(n.Piece)))
			continue
		}
		text += Paragraph("  ", "  ", fmt.Sprintf("%s: %s.", plan.PieceCalled(st, n.Piece), stageText(st, p)))
		if n.Was.AtPlater() && p.Bare() && !p.AtPlater() {
			text += Paragraph("  ", "  ", bareText(st, p))
		}
	}
	for _, w := range news.Warnings {
		text += Paragraph("  ", "  ", "Mind: "+warningText(w)+".")
	}
	for _, w := range append(freightLeftOut(before, st, &news, done.Entry), stayed(st, &news, done.Next)...) {
		text += Paragraph("  ", "  ", "Mind: "+w+".")
	}
	return text + nextText(done.Next)
}

// bareText says what becomes of a piece that came back stripped, and who pays for that.
func bareText(st *catalog.State, p *catalog.Piece) string {
	text := "It is bare metal"
	if p.Metal != catalog.None {
		text = "It is bare " + st.Tables.Metals[p.Metal].Name
		if needs := st.Tables.Metals[p.Metal].Bare; needs != "" {
			text += ", which " + needs
		}
	}
	return text + ". Stripping it is the job's to pay, whatever becomes of it; anybody who takes it bare can plate it."
}

// joinedText says that more went with a lot, and what that saves.
func joinedText(before, st *catalog.State, j *catalog.JoinedLot) string {
	q := &st.Platers[j.Plater]
	text := fmt.Sprintf("It goes with lot %s, in which %s went to %s that day", j.Lot, plan.PiecesCalled(before, j.With),
		q.Name)
	if q.Freight > 0 {
		text += fmt.Sprintf(": his freight of %s is not charged again", catalog.FormatMoney(q.Freight))
	}
	return text + ". If it went by itself: brightset record undo, and again with --new-lot."
}

// spentText says what an entry spends, sum by sum, and what is spent by now.
func spentText(st *catalog.State, news *catalog.News) string {
	if news.Cents == 0 {
		return ""
	}
	of := ""
	if st.Job.Budget.Set {
		of = " of " + catalog.FormatMoney(st.Job.Budget.V+st.Job.SpentSum)
	}
	text := Paragraph("  ", "  ", fmt.Sprintf("Spent so far %s%s, %s by this.", catalog.FormatMoney(st.Job.SpentSum), of,
		signed(news.Cents)))
	for _, s := range news.Spent {
		text += Paragraph("    ", "      ", fmt.Sprintf("%s %s", catalog.FormatMoney(s.Cents), s.For))
	}
	return text
}

// signed writes a sum that is more or less: "12.00 more", "5.00 less".
func signed(c catalog.Cents) string {
	if c < 0 {
		return catalog.FormatMoney(-c) + " less"
	}
	return catalog.FormatMoney(c) + " more"
}

// stayed says what did not go along when pieces were sent, and what that costs: what has to
// match one that went, and a lot of its own for what the plan would still send.
func stayed(st *catalog.State, news *catalog.News, next *Next) (all []string) {
	var went []int
	for _, n := range news.Pieces {
		if p := &st.Pieces[n.Piece]; p.AtPlater() && !n.Was.AtPlater() {
			went = append(went, n.Piece)
		}
	}
	for _, b := range paper.LeftBehind(st, went) {
		text := fmt.Sprintf("the plan kept sends %s along, which has to match %s: send both in one lot",
			plan.PieceCalled(st, b.Piece), plan.PieceCalled(st, b.Went))
		if b.Parted {
			text += fmt.Sprintf("; two lots of %s may differ in tone by %s more, and the two are then not sure to match",
				st.Platers[b.Plater].Name, catalog.FormatCenti(b.Drift))
		}
		all = append(all, text)
	}
	if len(went) == 0 || next == nil || !next.Plan.Has {
		return all
	}
	lots, told := paper.Lots(next.Plan), map[int]bool{}
	for _, open := range paper.OpenLots(next.Plan) {
		told[open.Plater] = true
		lot := lots[slices.IndexFunc(lots, func(l paper.Lot) bool { return l.Plater == open.Plater })]
		var left []string
		for _, i := range lot.Lines {
			left = append(left, plan.PieceCalled(st, next.Plan.Lines[i].Choice.Piece))
		}
		all = append(all, fmt.Sprintf("still to go to %s: %s; in a lot of their own that costs %s more, sent the same day "+
			"it goes with lot %s", st.Platers[open.Plater].Name, strings.Join(unique(left), ", "),
			catalog.FormatMoney(open.Saved), open.Name))
	}
	for _, short := range paper.ShortLots(st, went) {
		if !told[short.Plater] { // as things stand now nothing more would go there
			all = append(all, fmt.Sprintf("the plan kept sends %s to %s too: sent the same day, %s of what was paid up to his "+
				"least lot comes off again", plan.PiecesCalled(st, short.Pieces), st.Platers[short.Plater].Name,
				catalog.FormatMoney(short.Saved)))
		}
	}
	return all
}
