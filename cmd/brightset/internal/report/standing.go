package report

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
	"brightset/model/ask"
	"brightset/model/plan"
)

// Since is what a plan is compared with: the one kept last, or the first one.
type Since struct {
	Lines  []catalog.KeptLine
	Seq    int    // entries after this one are news
	Called string // "the plan kept on 2027-02-01"
	Day    string // 2027-02-01; "" for the first plan
	Early  bool   // time ran out before the first plan was known: the rest is empty
}

// standing says where the job is: the day, what is spent, what is under way. "" where
// nothing was recorded.
func standing(st *catalog.State) string {
	var all []string
	for i := range st.Pieces {
		p := &st.Pieces[i]
		switch {
		case p.Elsewhere, p.Stage == catalog.StageSeen && !p.AtPlater():
			continue
		case p.AtPlater():
			text := fmt.Sprintf("%s: %s, lot %s", plan.PieceCalled(st, i), stageText(st, p), p.Sent.Lot)
			if p.Sent.On.Set {
				text += fmt.Sprintf(", sent %s", p.Sent.On.V.Format("2006-01-02"))
				if late := p.Overdue(st); late > 0 {
					text += fmt.Sprintf(", %s overdue", count(late, "day"))
				}
			}
			all = append(all, text)
		default:
			all = append(all, fmt.Sprintf("%s: %s", plan.PieceCalled(st, i), stageText(st, p)))
		}
	}
	if len(all) == 0 && st.Job.SpentSum == 0 && st.Job.AsOf.IsZero() {
		return ""
	}
	head := "Where things stand"
	if !st.Job.AsOf.IsZero() {
		head += fmt.Sprintf(", %s, day %d", st.Job.AsOf.Format("2006-01-02"), st.Job.Elapsed)
	}
	if st.Job.SpentSum != 0 {
		head += fmt.Sprintf(": %s spent", catalog.FormatMoney(st.Job.SpentSum))
	}
	if len(all) == 0 {
		return Paragraph("", "", head+".")
	}
	return list(head+".", all)
}

// shiftsText says what changed since the last plan and why; "" where there is none to
// compare with.
func shiftsText(since *Since, p *plan.Plan) string {
	if since == nil {
		return ""
	}
	shifts := plan.PlanChanges(since.Lines, since.Seq, p)
	if len(shifts) == 0 {
		return Paragraph("", "", fmt.Sprintf("Nothing changed since %s.", since.Called))
	}
	var all []string
	for i := range shifts {
		all = append(all, shiftText(p.Of, &shifts[i]))
	}
	return list(fmt.Sprintf("What changed since %s:", since.Called), all)
}

func shiftText(st *catalog.State, s *plan.PlanChange) string {
	text := slotNamed(st, s.Slot) + ": "
	switch {
	case s.Was == nil:
		return text + "new, " + plan.Told(st, s.Now.Choice)
	case s.Now == nil:
		return text + "not in the job any more"
	case s.Again:
		text += fmt.Sprintf("%s once more, for %s: it came back without the work", plan.Told(st, s.Now.Choice),
			catalog.FormatMoney(s.Now.Choice.Cash))
	case s.Reserve:
		text += fmt.Sprintf("%s in reserve instead of %s", reserveText(st, s.Now), keptText(st, s.Was.Fallback))
	default:
		text += plan.Told(st, s.Now.Choice)
		if s.From != "" {
			text += fmt.Sprintf(", planned for %s,", slotNamed(st, s.From))
		}
		text += " instead of " + keptText(st, &s.Was.KeptChoice)
		if s.To != "" {
			text += ", which goes to " + slotNamed(st, s.To)
		}
	}
	switch days := st.Job.Elapsed; {
	case !s.ByOthers:
		return text + "; " + becauseText(st, s.Because)
	case s.From != "" && s.From == s.To:
		return text + ": they change places"
	case s.To == "" && days > 0 && st.Job.WithinDays.Set:
		return text + fmt.Sprintf("; it follows from the rest, or from the %s gone by", count(days, "day"))
	}
	return text + "; it follows from the rest"
}

func reserveText(st *catalog.State, l *plan.Line) string {
	if l.Fallback == nil {
		return "a rescue"
	}
	return plan.Told(st, l.Fallback)
}

// slotNamed is the name of a slot by its id, which the job may not have any more.
func slotNamed(st *catalog.State, id string) string {
	if s, ok := st.SlotIndex(id); ok {
		return st.Slots[s].Name
	}
	return id
}

func keptText(st *catalog.State, k *catalog.KeptChoice) string {
	if k == nil {
		return "a rescue"
	}
	name := keptName(k)
	if i, ok := st.FindPiece(k.Piece); ok {
		name = plan.PieceCalled(st, i)
	}
	q, ok := st.PlaterIndex(k.Plater)
	switch {
	case k.Plater != "" && ok:
		return name + ", " + plan.WayOf(st, k.Work, q, k.Level)
	case k.Plater != "":
		return name + ", plated by " + k.Plater
	}
	return name + ", " + plan.WayOf(st, k.Work, catalog.None, "")
}

// keptName is the id of a piece of a plan that was kept.
func keptName(k *catalog.KeptChoice) string {
	return strings.TrimPrefix(strings.TrimPrefix(k.Piece, "job:"), "shop:")
}

// mostEntries is how many entries are told as the cause of a change, the last.
const mostEntries = 3

func becauseText(st *catalog.State, entries []journal.Entry) string {
	var all []string
	for i := max(0, len(entries)-mostEntries); i < len(entries); i++ {
		all = append(all, fmt.Sprintf("%s (entry %d)", happened(st, &entries[i]), entries[i].Seq))
	}
	return strings.Join(all, ", ")
}

// befell is what is said of pieces to which something happened.
var befell = map[event.Action]string{
	event.Found: "has a fault", event.Cleared: "has a fault less", event.Graded: "was graded",
	event.Quoted: "was quoted for", event.Fitted: "was tried on", event.Sent: "was sent",
	event.Stripped: "was stripped", event.Priced: "was priced", event.Approved: "was approved",
	event.Refused: "was refused", event.Recalled: "was taken back", event.Plated: "is plated",
	event.Back: "came back", event.Hung: "was hung", event.Unhung: "was taken down", event.Broke: "broke",
	event.Lost: "got lost", event.Sold: "was sold", event.Bought: "was bought", event.Came: "came",
	event.Failed: "will not come", event.New: "is new",
}

// happened is an entry in a few words, its pieces by their names.
func happened(st *catalog.State, e *journal.Entry) string {
	did, ok := befell[e.Action]
	var pieces []string
	for _, name := range unique(entryAbout(e)) {
		i, found := st.FindPiece(name)
		if !ok || !found {
			return EntryText(e)
		}
		pieces = append(pieces, plan.PieceCalled(st, i))
	}
	return strings.Join(pieces, " and ") + " " + did
}

// Strip is what stripping first may save, and the prices at which to stop.
type Strip struct {
	First []ask.InformationValue
	Stop  []ask.StopPrice
	Whole bool
}

// stripText lists what is worth stripping before anything is committed, and the prices
// after stripping at which to stop and call.
func stripText(st *catalog.State, s *Strip) string {
	if s == nil || (len(s.First) == 0 && len(s.Stop) == 0 && s.Whole) {
		return ""
	}
	text := ""
	if len(s.First) > 0 {
		var all []string
		for i := range s.First {
			o := &s.First[i]
			all = append(all, findOut(st, o)+worthKnowing(o))
		}
		text += list("Worth stripping before anything is committed:", all)
	}
	if len(s.Stop) > 0 {
		t := NewTable("price after stripping", "plater", ">as planned", ">stop price")
		for i := range s.Stop {
			p := &s.Stop[i]
			t.Row(plan.OfSlot(st, p.Slot, p.Choice.Piece), plan.Briefly(st, p.Choice.Plater),
				catalog.FormatMoney(p.Planned), stopAbove(p))
		}
		if text != "" {
			text += "\n"
		}
		note := "Each for one piece, the lot being sent and the rest as planned. Up to the stop price: brightset record " +
			"priced, then approved. Above it have him stop: brightset record recalled, and plan again."
		if slices.ContainsFunc(s.Stop, func(p ask.StopPrice) bool { return p.ByBudget }) {
			note += " Where the budget is named, it alone sets the price: no other set is cheaper up to there."
		}
		text += t.String() + Paragraph("", "", note)
	}
	if !s.Whole {
		text += Paragraph("", "", "Stopped early: not every piece was looked at for what stripping it first may save, "+
			"and for the price after stripping at which to stop, or not to the end. Of two sums the first is proven at "+
			"least and the second at most. With more time: "+
			"brightset plan --full --time-limit 5m")
	}
	return text
}

// stopAbove is the price above which to stop, or between which sums it lies.
func stopAbove(p *ask.StopPrice) string {
	switch {
	case p.NoOther && !p.ByBudget:
		return "no other way"
	case !p.Proven():
		return bracket(p.Highest, p.Most)
	case p.ByBudget:
		return "budget " + catalog.FormatMoney(p.Highest)
	}
	return catalog.FormatMoney(p.Highest)
}
