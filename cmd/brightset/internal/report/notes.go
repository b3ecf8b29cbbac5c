package report

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// notes collects the footnotes of a table: which lines rest on starting values,
// which nobody has vouched for, and what would take their place.
type notes struct {
	list []note
}

// note is one thing that would replace starting values, for one or more pieces.
type note struct {
	remedy string   // "a quote from Pell Lane Die-Cast on"
	ids    []string // of pieces, or of slots
	called []string // the same by their names
	rests  []string
}

func newNotes() *notes { return &notes{} }

// mark adds what a choice rests on and gives the mark for it: " [1]", or ""
// where every figure is somebody's own.
func (n *notes) mark(st *catalog.State, c *plan.Choice) string {
	if len(c.Assumptions) == 0 {
		return ""
	}
	rests := make([]string, len(c.Assumptions))
	for i, r := range c.Assumptions {
		rests[i] = string(r)
	}
	return n.add(remedy(st, c), plan.PieceName(st, c.Piece), plan.PieceCalled(st, c.Piece), rests)
}

// markRescue does the same for what a rescue of a slot costs.
func (n *notes) markRescue(slot *catalog.Slot) string {
	if slot.Rescue.From.Source != catalog.StartingValue {
		return ""
	}
	return n.add("rescue and rescue_days, in [job] or in the slot, for", slot.ID, slot.Name,
		[]string{"the cost of a rescue"})
}

// add puts a piece under its remedy and gives the mark of the footnote.
func (n *notes) add(remedy, id, called string, rests []string) string {
	i := slices.IndexFunc(n.list, func(have note) bool { return have.remedy == remedy })
	if i < 0 {
		i = len(n.list)
		n.list = append(n.list, note{remedy: remedy})
	}
	have := &n.list[i]
	have.ids, have.called = unique(append(have.ids, id)), unique(append(have.called, called))
	have.rests = unique(append(have.rests, rests...))
	return fmt.Sprintf(" [%d]", i+1)
}

// String writes the footnotes, or "" where there are none.
func (n *notes) String() string {
	if len(n.list) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString(Paragraph("", "", "Lines that rest on starting values, which are nobody's experience yet, "+
		"and what would replace them:"))
	for i, have := range n.list {
		b.WriteString(Paragraph(fmt.Sprintf("%5s ", fmt.Sprintf("[%d]", i+1)), "      ",
			have.remedy+" "+strings.Join(have.called, ", ")+" (instead of "+few(have.rests)+")"))
	}
	return b.String()
}

// few names the first of many things; plan --json has them all, line by line.
func few(all []string) string {
	const most = 4
	if len(all) <= most+1 {
		return strings.Join(all, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(all[:most], ", "), len(all)-most)
}

// remedy says what would replace the starting values of a choice; the piece's
// name follows.
func remedy(st *catalog.State, c *plan.Choice) string {
	switch {
	case c.Quote != catalog.None:
		return fmt.Sprintf("the figures missing in quote %q on", st.Pieces[c.Piece].Quotes[c.Quote].ID)
	case c.Plated():
		return fmt.Sprintf("a quote from %s on", st.Platers[c.Plater].Name)
	case c.Work == catalog.WorkClean:
		return "hours and breakage of your own, [work.clean] in the shop's file, for"
	}
	return "a grade given by eye for"
}

// planWarnings is what the user should know of the files and the plan.
func planWarnings(p *plan.Plan) []string {
	var all []string
	for _, w := range p.Of.Warnings {
		all = append(all, warningText(w))
	}
	all = append(all, p.Warnings...)
	return unique(append(all, stillToday(p)...))
}

// stillToday says which lots that went today what is left to send can still go with.
func stillToday(p *plan.Plan) []string {
	var all []string
	for _, lot := range paper.OpenLots(p) {
		q := p.Of.Platers[lot.Plater].Name
		all = append(all, fmt.Sprintf("lot %s went to %s on %s: what you send him the same day goes with it, and "+
			"the %s that is reckoned here for a lot of its own is saved (brightset record sent)",
			lot.Name, q, p.Of.Job.AsOf.Format(time.DateOnly), catalog.FormatMoney(lot.Saved)))
	}
	return all
}

// unique leaves out what came before. It never returns nil.
func unique(all []string) []string {
	out := []string{}
	for _, s := range all {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

func warningText(w catalog.Warning) string {
	if w.From.File == "" {
		return w.Message
	}
	return w.From.String() + ": " + w.Message
}
