package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/risk"
)

// HuntBlocks is what Hunt says, for a page.
func HuntBlocks(h *ask.Hunted) []page.Block {
	switch {
	case len(h.Finds) == 0 && !h.Whole:
		return []page.Block{{Text: []string{huntIntro(h), noneLookedAt}}}
	case len(h.Finds) == 0:
		return []page.Block{{Text: []string{huntIntro(h), noneWorthIt}}}
	}
	g := page.NewGrid("slot", "look out for", "to be used", ">pay at most")
	g.Caption = "what to look out for"
	for _, r := range wanted(h) {
		g.Row(r.slots, r.look, r.used, r.top)
	}
	all := []page.Block{{Text: []string{huntIntro(h)}, Grid: g}}
	if !h.Whole {
		all[0].Small = []string{huntCut}
	}
	all[0].Small = append(all[0].Small, huntNote(h))
	if pairs := pairTexts(h); len(pairs) > 0 {
		all = append(all, page.Block{Heading: huntTogether, List: pairs})
	}
	if leads := leads(h); len(leads) > 0 {
		all = append(all, page.Block{Heading: huntLeads, List: leads})
	}
	for _, t := range ask.Tours(h.Plan.Of, h) {
		head, how, tries := tour(h, &t)
		for i := range tries {
			tries[i] = strings.TrimPrefix(tries[i], "[ ] ")
		}
		all = append(all, page.Block{Heading: head, Text: []string{"Try " + how + "."}, List: tries,
			Small: []string{tourNote}})
	}
	return all
}

// RiskBlocks is what Risk says in detail, for a page.
func RiskBlocks(r *risk.Risk, s *risk.Simulation) []page.Block {
	g := page.NewGrid("of twenty jobs like this one", ">jobs", ">spend up to")
	g.Caption = "what twenty such jobs spend"
	for _, a := range alike(r) {
		g.Row(strings.Repeat("●", a.jobs), fmt.Sprint(a.jobs), catalog.FormatMoney(a.upTo))
	}
	facts := &page.Card{}
	for _, row := range riskRows(r, s) {
		facts.Facts = append(facts.Facts, page.Fact{What: row[0], Is: row[1]})
	}
	all := []page.Block{{Text: []string{riskIntro(r)}, Grid: g}, {Card: facts}}
	if cut := early(r, s); cut != "" {
		all[1].Small = []string{cut}
	}
	if slots := slotRisks(r); len(slots) > 0 {
		all = append(all, page.Block{Heading: badCases, List: slots})
	}
	if lots := lotRisks(r); len(lots) > 0 {
		all = append(all, page.Block{Heading: lotsLost, List: lots})
	}
	how := page.NewGrid(spentHeads...)
	how.Caption, how.Rows = "what is spent", spentRows(r, s)
	return append(all, page.Block{Heading: "How the figures are come by", Grid: how, Small: []string{spentNote(r, s)}})
}

// LearnBlocks is what Learn says, for a page.
func LearnBlocks(l *Lesson) []page.Block {
	if l.Count == 0 {
		return []page.Block{{Text: []string{l.intro(), "Nothing yet. It is learnt from what is recorded: that a piece was " +
			"sent, is back, broke or was refused."}}}
	}
	metals, platers := page.NewGrid(metalHeads...), page.NewGrid(platerHeads...)
	metals.Caption, metals.Rows = "by metal and work", l.metalRows()
	platers.Caption, platers.Rows = "by plater", l.platerRows()
	return []page.Block{{Text: []string{l.intro()}},
		{Heading: "By metal and work", Grid: metals, Small: []string{metalNote}},
		{Heading: "By plater", Grid: platers, Small: append(l.guessesOff(), platerNote)}}
}
