package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// Hunt writes a list to carry: what to look out for, what is good enough, and the
// most to pay.
func Hunt(h *ask.Hunted) string {
	st := h.Plan.Of
	text := Paragraph("", "", fmt.Sprintf("%s: what to hunt for (all sums in %s)", st.Job.Title, st.Job.Currency)) + "\n" +
		Paragraph("", "", huntIntro(h))
	if len(h.Finds) == 0 && !h.Whole {
		return text + "\n" + Paragraph("", "", noneLookedAt+" For one slot at a time: brightset hunt --slot SLOT")
	}
	if len(h.Finds) == 0 {
		return text + "\n" + Paragraph("", "", noneWorthIt)
	}
	text += "\n" + huntTable(h)
	if pairs := pairTexts(h); len(pairs) > 0 {
		text += "\n" + list(huntTogether+":", pairs)
	}
	if leads := leads(h); len(leads) > 0 {
		text += "\n" + list(huntLeads+":", leads)
	}
	if tours := tours(h); len(tours) > 0 {
		text += "\n" + tours
	}
	if !h.Whole {
		text += "\n" + Paragraph("", "", huntCut+" For one slot at a time: brightset hunt --slot SLOT")
	}
	return text + "\n" + Paragraph("", "", huntNote(h))
}

// What the list and the page of it say alike.
const (
	noneLookedAt = "Stopped before any find was looked at to the end."
	noneWorthIt  = "Nothing is worth hunting for: no find of the kinds looked at would make the set cheaper."
	huntTogether = "Together they are worth something else than one by one"
	huntLeads    = "Leads, and what waiting for them is worth"
	huntCut      = "Stopped early: not every find was looked at to the end. Of two sums a find is proven to be worth " +
		"the first at least and the second at most."
)

// huntIntro says what a find is worth.
func huntIntro(h *ask.Hunted) string {
	if !h.Plan.Has {
		return "As things stand nothing meets the target. These finds would make a set possible:"
	}
	return fmt.Sprintf("Without any find the set costs %s. A find is worth what the set costs less with it, "+
		"if it came free; freight to your door counts as part of its price.", catalog.FormatMoney(h.Plan.Expected))
}

// leads says what the chance that a piece comes is worth, and until when.
func leads(h *ask.Hunted) []string {
	st := h.Plan.Of
	var all []string
	for i := range h.Leads {
		l := &h.Leads[i]
		text := plan.PieceCalled(st, l.Piece) + " for " + st.Slots[l.Slot].Name
		switch {
		case l.Reserve:
			text += " (in reserve)"
		case l.Given:
			text = plan.PieceCalled(st, l.Piece) + " to give in trade for " + st.Slots[l.Slot].Name
		}
		if l.Needed {
			text += ": without it nothing meets the target"
		} else {
			text += ": worth " + bracket(l.Worth, l.Most)
		}
		if l.HasLast {
			text += fmt.Sprintf("; it has to be here by day %d", l.LastDay)
			if st.Job.Start.Set {
				text += ", " + st.Job.Start.V.AddDate(0, 0, l.LastDay).Format("2006-01-02")
			}
		}
		all = append(all, text)
	}
	return all
}

// tours says in which order to try the avenues, and when to stop.
func tours(h *ask.Hunted) string {
	text := ""
	for _, t := range ask.Tours(h.Plan.Of, h) {
		head, how, tries := tour(h, &t)
		text += Paragraph("", "", head+", "+how+":") + list("", tries)
	}
	if text != "" {
		text += Paragraph("", "", tourNote)
	}
	return text
}

// tour says for what one goes and what it is worth, and the tries in their order.
func tour(h *ask.Hunted, t *ask.Tour) (head, how string, tries []string) {
	st, f := h.Plan.Of, &h.Finds[t.Find]
	for _, try := range t.Tries {
		a := &st.Avenues[try.Avenue]
		where := a.Where
		if where == "" {
			where = a.ID
		}
		tries = append(tries, fmt.Sprintf("[ ] %s: %s a try, %s to find one, likely at %s; "+
			"skip it once you have one for %s or less",
			where, catalog.FormatMoney(a.Cost), Percent(a.Chance), catalog.FormatMoney(a.Likely),
			catalog.FormatMoney(try.Reserve)))
	}
	return fmt.Sprintf("Where to look for %s (%s)", st.Slots[f.Slot].Name, f.Profile.Name), howToTry(f, t), tries
}

// howToTry says what a tour is good for, as far as that is known.
func howToTry(f *ask.Find, t *ask.Tour) string {
	how := "in this order"
	if f.Rescues {
		how += ", since nothing meets the target as things stand"
	}
	if f.Stopped {
		return how + ", others perhaps as well; worth " + bracket(f.Worth, f.Most)
	}
	if f.Worth < catalog.Cents(catalog.MaxSum) {
		how += "; worth up to " + catalog.FormatMoney(f.Worth)
	}
	if t.Known {
		how += ", and with tries and piece " + catalog.FormatMoney(t.Expects) + " on average"
	}
	return how
}

const tourNote = "The order is the best there is for one slot by itself; " +
	"where finds for several slots hang together it is a rule of thumb. Prices and chances are your own guesses: " +
	"low, likely and high count as one case in four, two in four and one in four."

// huntNote says what the prices rest on.
func huntNote(h *ask.Hunted) string {
	st := h.Plan.Of
	text := "Each top price is for one find alone: after buying one, hunt again. " +
		"Of several pieces for one slot the price is for all of them."
	if metals := metalsTaken(h); metals != "" {
		text += " What has to be worked on is taken to be of the slot's usual metal: " + metals + "."
	}
	if st.Job.WithinDays.Set {
		text += fmt.Sprintf(" A find has to leave time for the work on it: %d days are allowed in all.", st.Job.WithinDays.V)
	}
	if kept := keptWeighed(st, huntKept); kept != "" {
		text += " " + kept
	}
	return text
}

// metalsTaken says of which metal finds to be worked on are taken to be, slot by slot.
func metalsTaken(h *ask.Hunted) string {
	st := h.Plan.Of
	var all []string
	for _, m := range h.MetalsTaken() {
		var slots []string
		for _, s := range m.Slots {
			slots = append(slots, st.Slots[s].Name)
		}
		all = append(all, st.Tables.Metals[m.Metal].Name+" for "+join(slots))
	}
	return strings.Join(all, "; ")
}

func worth(st *catalog.State, f *ask.Find) string {
	if f.Rescues && !st.Job.Budget.Set {
		return "needed"
	}
	return bracket(f.Worth, f.Most)
}

// bracket is a sum, or where only so much is proven, in words of the list: no less than the
// one, and no more than the other.
func bracket(least, most catalog.Cents) string {
	switch {
	case least == most:
		return catalog.FormatMoney(least)
	case most >= catalog.Cents(catalog.MaxSum):
		return catalog.FormatMoney(least) + " or more"
	case least <= 0:
		return "no more than " + catalog.FormatMoney(most)
	}
	return catalog.FormatMoney(least) + " to " + catalog.FormatMoney(most)
}
