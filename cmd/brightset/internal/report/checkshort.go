package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// CheckShort says in a line per slot the best there is, and then what stands in the way of
// more: works that nobody does, what is not known, warnings.
func CheckShort(st *catalog.State, choices [][]plan.Choice) string {
	var b strings.Builder
	b.WriteString(Paragraph("", "", st.Job.Title+" (all sums in "+st.Job.Currency+")") + "\n")
	t := NewTable("slot", "the best there is", "and how (finish)", ">cost", ">grade")
	for s := range st.Slots {
		slot := nameOrID(st.Slots[s].Name, st.Slots[s].ID, 21)
		if c := bestOf(st, choices[s]); c != nil {
			how := strings.TrimSuffix(plan.BriefWay(st, c), " finish")
			t.Row(slot, nameOrID(st.Pieces[c.Piece].Name, st.PieceLabel(c.Piece), 22), shorten(how, 18),
				catalog.FormatMoney(choice.IfItComes(st, c)), catalog.FormatCenti(c.Grade))
		} else {
			t.Row(slot, "nothing good enough")
		}
	}
	b.WriteString(t.String() + "\n")
	b.WriteString(Paragraph("", "", counts(st, choices)))
	for _, part := range []struct {
		head string
		rows []string
	}{
		{"What nobody does, and the pieces that wait for it:", untakenTexts(st)},
		{"Missing:", missingTexts(st)},
		{"Worth knowing:", checkWarnings(st, choices)},
	} {
		if text := list(part.head, part.rows); text != "" {
			b.WriteString("\n" + text)
		}
	}
	b.WriteString("\n" + Paragraph("", "", "Each by itself: cheapest with a rescue behind it. All that can be done with "+
		"every piece: brightset check --full, or --slot SLOT."))
	return b.String()
}

// bestOf is the choice of a slot that is good enough and is expected to cost least by itself.
func bestOf(st *catalog.State, list []plan.Choice) *plan.Choice {
	var best *plan.Choice
	for i := range list {
		if c := &list[i]; verdictOn(st, c) == "" && (best == nil || choice.Alone(st, c) < choice.Alone(st, best)) {
			best = c
		}
	}
	return best
}

// nameOrID is a name that fits so many columns, or else the id, which is short as a rule.
func nameOrID(name, id string, width int) string {
	if name = clean(name); name == "" || Width(name) > width {
		return shorten(id, width)
	}
	return name
}

// untakenTexts names the works that nobody does.
func untakenTexts(st *catalog.State) []string {
	var all []string
	for _, u := range choice.UntakenWorks(st) {
		all = append(all, fmt.Sprintf("%s: %s; add a maker or ask a plater", st.Tables.Works[u.Work].Name,
			plan.PiecesCalled(st, u.Pieces)))
	}
	return all
}

// pricedByPiece says whether some plater asks so much by the piece for what fits a slot, which
// needs no area.
func pricedByPiece(st *catalog.State, slot int) bool {
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if !choice.FitsSlot(p, slot) {
			continue
		}
		for q := range st.Platers {
			for l := range st.Platers[q].Levels {
				if st.Platers[q].Levels[l].PriceOf(p, &st.Slots[slot]).Set {
					return true
				}
			}
		}
	}
	return false
}

// missingTexts names what would have to be known before more can be reckoned.
func missingTexts(st *catalog.State) []string {
	var area, unseen, metal []string
	for s := range st.Slots {
		if len(st.Platers) > 0 && !st.Slots[s].Area.Set && !pricedByPiece(st, s) {
			area = append(area, plan.SlotCalled(st, s))
		}
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		switch {
		case p.Gone() || p.AtPlater() || len(p.Fits)+len(p.Fit) == 0:
		case !p.Grade.Set && len(p.Findings) == 0 && len(p.Quotes) == 0:
			unseen = append(unseen, plan.PieceCalled(st, i))
		case p.Metal == catalog.None && len(p.Quotes) == 0:
			metal = append(metal, plan.PieceCalled(st, i))
		}
	}
	var all []string
	for _, part := range []struct {
		what string
		of   []string
	}{
		{"the area, without which no plating can be reckoned, of ", area},
		{"a grade or what was found, of ", unseen},
		{"the metal, or a quote, of ", metal},
	} {
		if len(part.of) > 0 {
			all = append(all, part.what+strings.Join(part.of, ", "))
		}
	}
	return all
}
