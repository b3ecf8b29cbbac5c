package report

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// Done is what a command has recorded.
type Done struct {
	Entry int // of the journal
	Text  string
}

// Recorded confirms what was recorded, and says what it means for money and for pieces.
func Recorded(before, st *catalog.State, done Done) string {
	text := Paragraph("", "", fmt.Sprintf("Recorded: %s (entry %d).", done.Text, done.Entry))
	if before == nil {
		return text
	}
	text += spentText(before, st)
	for _, j := range joined(before, st, done.Entry) {
		text += Paragraph("  ", "  ", j.text(st))
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		j, ok := before.FindPiece(p.Key())
		if !ok {
			text += restText(before, st, i)
			continue
		}
		was := &before.Pieces[j]
		if movedOn(was, p) {
			text += Paragraph("  ", "  ", fmt.Sprintf("%s: %s, was %s.", st.PieceLabel(i), stageText(st, p), stageText(before, was)))
		}
	}
	for _, w := range newWarnings(before, st) {
		text += Paragraph("  ", "  ", "Mind: "+warningText(w)+".")
	}
	return text
}

// joinedLot is a lot that went to a plater already and that more was sent with.
type joinedLot struct {
	plater int
	lot    string
	with   []string // what was in it before
}

// joined gives the lots that pieces were sent with by an entry, in the order of the pieces.
func joined(before, st *catalog.State, entry int) (all []joinedLot) {
	if st.Record == nil || !slices.ContainsFunc(st.Record.Entries, func(e journal.Entry) bool { return e.Seq == entry && e.Action == event.Sent }) {
		return nil
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		j, ok := before.FindPiece(p.Key())
		if !p.AtPlater() || ok && before.Pieces[j].AtPlater() || slices.ContainsFunc(all, func(o joinedLot) bool { return o.lot == p.Sent.Lot }) {
			continue
		}
		one := joinedLot{plater: p.Sent.Plater, lot: p.Sent.Lot}
		for k := range before.Pieces {
			if was := &before.Pieces[k]; was.AtPlater() && was.Sent.Lot == one.lot && one.lot != "" {
				one.with = append(one.with, before.PieceLabel(k))
			}
		}
		if len(one.with) > 0 {
			all = append(all, one)
		}
	}
	return all
}

func (j *joinedLot) text(st *catalog.State) string {
	q := &st.Platers[j.plater]
	text := fmt.Sprintf("It goes with lot %s, in which %s went to %s that day", j.lot, strings.Join(j.with, ", "), q.ID)
	if q.Freight > 0 {
		text += fmt.Sprintf(": his freight of %s is not charged again", catalog.FormatMoney(q.Freight))
	}
	return text + ". If it went by itself: brightset record undo, and again with --new-lot."
}

// movedOn says whether a piece is further than it was, or elsewhere.
func movedOn(was, p *catalog.Piece) bool {
	return was.Stage != p.Stage || was.AtPlater() != p.AtPlater() || was.HungIn != p.HungIn
}

func newWarnings(before, st *catalog.State) []catalog.Warning {
	var all []catalog.Warning
	for _, w := range st.Warnings {
		if !slices.ContainsFunc(before.Warnings, func(o catalog.Warning) bool { return o.Message == w.Message }) {
			all = append(all, w)
		}
	}
	return all
}

func newlySpent(before, st *catalog.State) []catalog.Spent {
	var all []catalog.Spent
	for _, s := range st.Job.Spent {
		if !slices.ContainsFunc(before.Job.Spent, func(o catalog.Spent) bool { return o.ID == s.ID }) {
			all = append(all, s)
		}
	}
	return all
}

// spentText says what an entry spends, sum by sum, and what is spent by now.
func spentText(before, st *catalog.State) string {
	diff := st.Job.SpentSum - before.Job.SpentSum
	if diff == 0 {
		return ""
	}
	of := ""
	if st.Job.Budget.Set {
		of = " of " + catalog.FormatMoney(st.Job.Budget.V+st.Job.SpentSum)
	}
	text := Paragraph("  ", "  ", fmt.Sprintf("Spent so far %s%s, %s by this.", catalog.FormatMoney(st.Job.SpentSum), of, signed(diff)))
	for _, s := range newlySpent(before, st) {
		text += Paragraph("    ", "      ", fmt.Sprintf("%s %s", catalog.FormatMoney(s.Cents), s.For))
	}
	return text
}

// restText tells of a piece that is new whether it is what is left of a bag.
func restText(before, st *catalog.State, i int) string {
	was := restOfBag(before, st, i)
	if was == nil {
		return ""
	}
	return Paragraph("  ", "  ", fmt.Sprintf("The rest of %s, %d of them, is called %s from now on.", was.ID, st.Pieces[i].Quantity, st.PieceLabel(i)))
}

// restOfBag is the bag that a piece that is new is what is left of; nil if of none.
func restOfBag(before, st *catalog.State, i int) *catalog.Piece {
	rest := &st.Pieces[i]
	for j := range before.Pieces {
		was := &before.Pieces[j]
		now, ok := st.FindPiece(was.Key())
		if ok && was.InShop == rest.InShop && strings.HasPrefix(rest.ID, was.ID+"-") && was.Quantity == st.Pieces[now].Quantity+rest.Quantity {
			return was
		}
	}
	return nil
}

// signed writes a sum that is more or less: "12.00 more", "5.00 less".
func signed(c catalog.Cents) string {
	if c < 0 {
		return catalog.FormatMoney(-c) + " less"
	}
	return catalog.FormatMoney(c) + " more"
}

// stageText says how far a piece has come, and where it is.
func stageText(st *catalog.State, p *catalog.Piece) string {
	text := p.Stage.String()
	switch {
	case p.Elsewhere:
		return "on another job"
	case p.Stage == catalog.StageHung:
		return "hung in " + st.Slots[p.HungIn].ID
	case p.AtPlater() && p.Stage == catalog.StageSeen:
		return "at " + st.Platers[p.Sent.Plater].ID
	case p.AtPlater():
		text += ", at " + st.Platers[p.Sent.Plater].ID
	}
	return text
}

// EntryText is an entry in a few words.
func EntryText(e *journal.Entry) string {
	if e.Action == event.Keep {
		return "plan kept"
	}
	text := string(e.Action)
	if names := unique(entryAbout(e)); len(names) > 0 {
		text += " " + strings.Join(names, ", ")
	}
	return text
}

// entryAbout names what an entry is about.
func entryAbout(e *journal.Entry) []string {
	kind := event.TablePiece
	switch e.Action {
	case event.Lock, event.Unlock:
		kind = event.TableLock
	case event.Ban, event.Unban:
		kind = event.TableBan
	case event.Traded:
		kind = event.TableTrade
	case event.Spent:
		kind = event.TableSpent
	case event.Keep:
		return nil
	}
	var about []string
	for _, c := range e.Changes {
		if !c.Target.Is(kind) {
			continue
		}
		name := strings.TrimPrefix(c.Target.Name(), "shop:")
		if what, ok := c.New[event.KeyFor].(string); ok && kind == event.TableSpent {
			name = what
		}
		if piece, ok := c.New[event.KeyPiece].(string); ok && kind == event.TableBan {
			name = strings.TrimPrefix(strings.TrimPrefix(piece, "job:"), "shop:")
		}
		about = append(about, name)
	}
	return about
}

// Journal lists what was recorded and stands, the newest last.
func Journal(st *catalog.State) string {
	var b strings.Builder
	b.WriteString(Paragraph("", "", st.Job.Title+": what was recorded"))
	if st.Record == nil || len(st.Record.Entries) == 0 {
		return b.String() + "\n" + Paragraph("", "", "Nothing yet. To record something: brightset record ACTION TARGET; the actions: brightset help record")
	}
	t := NewTable(">entry", "day", "what", "changed", ">spent")
	for i := range st.Record.Entries {
		e := &st.Record.Entries[i]
		what := EntryText(e)
		if e.Reason != "" {
			what += ": " + e.Reason
		}
		spent := ""
		if sum := catalog.SpentBy(e); sum != 0 {
			spent = catalog.FormatMoney(sum)
		}
		t.Row(fmt.Sprint(e.Seq), e.Day().Format("2006-01-02"), what, changedText(e), spent)
	}
	b.WriteString("\n" + t.String())
	b.WriteString("\n" + Paragraph("", "", fmt.Sprintf("Spent so far: %s. To take the last one back: brightset record undo", catalog.FormatMoney(st.Job.SpentSum))))
	return b.String()
}

// changedText names the most telling of the keys that an entry changes.
func changedText(e *journal.Entry) string {
	var all []string
	for _, c := range e.Changes {
		for _, k := range slices.Sorted(maps.Keys(c.New)) {
			v := c.New[k]
			switch k {
			case event.KeyStage, event.KeyGrade, event.KeyCost, event.KeyPrice, event.KeyChance, event.KeyHungIn,
				event.KeyDefect, event.KeySeverity, event.KeyQuantity:
				if v != nil && c.Target.Is(event.TablePiece) {
					all = append(all, fmt.Sprintf("%s %v", strings.ReplaceAll(string(k), "_", " "), v))
				}
			}
		}
	}
	return strings.Join(unique(all), ", ")
}
