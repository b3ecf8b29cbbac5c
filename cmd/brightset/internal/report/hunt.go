package report

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// Hunt writes a list to carry: what to look out for, what is good enough, and the
// most to pay.
func Hunt(h *ask.Hunted) string {
	st := h.Plan.Of
	text := Paragraph("", "", fmt.Sprintf("%s: what to hunt for (all sums in %s)", st.Job.Title, st.Job.Currency)) + "\n"
	switch {
	case !h.Plan.Has:
		text += Paragraph("", "", "As things stand nothing meets the target. These finds would make a set possible:")
	default:
		text += Paragraph("", "", fmt.Sprintf("Without any find the set costs %s. A find is worth what the set costs less with it, if it came free; freight to your door counts as part of its price.", catalog.FormatMoney(h.Plan.Expected)))
	}
	if len(h.Finds) == 0 && !h.Whole {
		return text + "\n" + Paragraph("", "", "Stopped before any find was looked at to the end. For one slot at a time: brightset hunt --slot SLOT")
	}
	if len(h.Finds) == 0 {
		return text + "\n" + Paragraph("", "", "Nothing is worth hunting for: no find of the kinds looked at would make the set cheaper.")
	}
	t := NewTable("[ ] slot", "look out for", "to be used", ">at most")
	for i := range h.Finds {
		f := &h.Finds[i]
		if seenBefore(st, h.Finds[:i], f) {
			continue
		}
		t.Row("[ ] "+st.Slots[f.Slot].ID, alike(st, h.Finds[i:]), used(st, f), worth(st, f))
	}
	text += "\n" + t.String()
	if pairs := pairTexts(h); len(pairs) > 0 {
		text += "\n" + list("Together they are worth something else than one by one:", pairs)
	}
	if leads := leads(h); len(leads) > 0 {
		text += "\n" + list("Leads, and what waiting for them is worth:", leads)
	}
	if tours := tours(h); len(tours) > 0 {
		text += "\n" + tours
	}
	if !h.Whole {
		text += "\n" + Paragraph("", "", "Stopped early: not every slot was looked at. For one slot at a time: brightset hunt --slot SLOT")
	}
	return text + "\n" + Paragraph("", "", huntNote(h))
}

// leads says what the chance that a piece comes is worth, and until when.
func leads(h *ask.Hunted) []string {
	st := h.Plan.Of
	var all []string
	for i := range h.Leads {
		l := &h.Leads[i]
		text := plan.PieceName(st, l.Piece) + " for " + st.Slots[l.Slot].ID
		if l.Reserve {
			text += " (in reserve)"
		}
		switch {
		case l.Needed:
			text += ": without it nothing meets the target"
		case l.Unproven:
			text += fmt.Sprintf(": worth about %s", catalog.FormatMoney(l.Worth))
		default:
			text += fmt.Sprintf(": worth %s", catalog.FormatMoney(l.Worth))
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
	st := h.Plan.Of
	text := ""
	for _, t := range ask.Tours(st, h) {
		var tries []string
		for _, try := range t.Tries {
			a := &st.Avenues[try.Avenue]
			where := a.Where
			if where == "" {
				where = a.ID
			}
			tries = append(tries, fmt.Sprintf("[ ] %s: %s a try, %s to find one, likely at %s; skip it once you have one for %s or less",
				where, catalog.FormatMoney(a.Cost), Percent(a.Chance), catalog.FormatMoney(a.Likely), catalog.FormatMoney(try.Reserve)))
		}
		text += Paragraph("", "", fmt.Sprintf("Where to look for %s (%s), in this order; worth up to %s, and with tries and piece %s on average:",
			st.Slots[t.Find.Slot].ID, t.Find.Profile.Name, catalog.FormatMoney(t.Find.Worth), catalog.FormatMoney(t.Expects))) + list("", tries)
	}
	if text != "" {
		text += Paragraph("", "", "The order is the best there is for one slot by itself; where finds for several slots hang together it is a rule of thumb. Prices and chances are your own guesses: low, likely and high count as one case in four, two in four and one in four.")
	}
	return text
}

// sameRow says whether two finds are used in the same way and worth the same.
func sameRow(st *catalog.State, a, b *ask.Find) bool {
	return a.Slot == b.Slot && a.Worth == b.Worth && used(st, a) == used(st, b)
}

func seenBefore(st *catalog.State, before []ask.Find, f *ask.Find) bool {
	for i := range before {
		if sameRow(st, &before[i], f) {
			return true
		}
	}
	return false
}

// alike names the profiles of all finds that are in the row of the first.
func alike(st *catalog.State, finds []ask.Find) string {
	text := ""
	for i := range finds {
		if !sameRow(st, &finds[0], &finds[i]) {
			continue
		}
		if text != "" {
			text += "; or "
		}
		text += finds[i].Profile.Name
	}
	return text
}

// huntNote says what the prices rest on.
func huntNote(h *ask.Hunted) string {
	st := h.Plan.Of
	text := "Each top price is for one find alone: after buying one, hunt again. Of several pieces for one slot the price is for all of them."
	if metals := metalsTaken(h); metals != "" {
		text += " What has to be worked on is taken to be of the slot's usual metal: " + metals + "."
	}
	if st.Job.WithinDays.Set {
		text += fmt.Sprintf(" A find has to leave time for the work on it: %d days are allowed in all.", st.Job.WithinDays.V)
	}
	return text
}

// metalsTaken says of which metal finds to be plated are taken to be, slot by slot: what
// they cost and how often they break goes by it.
func metalsTaken(h *ask.Hunted) string {
	slots := map[int][]string{}
	var order []int
	for i := range h.Finds {
		f := &h.Finds[i]
		if !f.Choice.Plated() && f.Choice.Work != catalog.WorkClean {
			continue
		}
		if slots[f.Metal] == nil {
			order = append(order, f.Metal)
		}
		slots[f.Metal] = unique(append(slots[f.Metal], h.Plan.Of.Slots[f.Slot].ID))
	}
	var all []string
	for _, m := range order {
		all = append(all, h.Plan.Of.Tables.Metals[m].Name+" for "+join(slots[m]))
	}
	return strings.Join(all, "; ")
}

// used says what would be done to a find.
func used(st *catalog.State, f *ask.Find) string {
	text := f.Choice.Work
	if f.Choice.Plated() {
		text += " " + st.Platers[f.Choice.Plater].ID
		if f.Choice.Level != "" {
			text += " " + f.Choice.Level
		}
	}
	return text
}

func worth(st *catalog.State, f *ask.Find) string {
	switch {
	case f.Rescues && !st.Job.Budget.Set:
		return "needed"
	case f.Stopped:
		return "about " + catalog.FormatMoney(f.Worth)
	}
	return catalog.FormatMoney(f.Worth)
}

func pairTexts(h *ask.Hunted) []string {
	var all []string
	for _, p := range h.Pairs {
		a, b := &h.Finds[p.A], &h.Finds[p.B]
		all = append(all, fmt.Sprintf("%s (%s) and %s (%s): %s for both, %s one by one",
			h.Plan.Of.Slots[a.Slot].ID, a.Profile.Name, h.Plan.Of.Slots[b.Slot].ID, b.Profile.Name,
			catalog.FormatMoney(p.Together), catalog.FormatMoney(a.Worth+b.Worth)))
	}
	return all
}

type huntDoc struct {
	Format   int            `json:"format"`
	Title    string         `json:"title"`
	Status   string         `json:"status"` // of the set without any find
	Currency string         `json:"currency"`
	Expected *catalog.Cents `json:"expected_cents"`
	Finds    []findDoc      `json:"finds"`
	Pairs    []pairDoc      `json:"pairs"`
	Leads    []leadDoc      `json:"leads"`
	Tours    []tourDoc      `json:"tours"`
	Within   *int           `json:"within_days"` // null: no date
	Whole    bool           `json:"whole"`       // everything was looked at
}

type leadDoc struct {
	Piece   string        `json:"piece"`
	Slot    string        `json:"slot"`
	Reserve bool          `json:"reserve"`
	Worth   catalog.Cents `json:"worth_cents"`
	Needed  bool          `json:"needed"`
	LastDay *int          `json:"last_day"` // by which it has to be here; null: no date
	LastOn  string        `json:"last_on"`  // the same in the calendar, "" where the job has no start
	Proven  bool          `json:"proven"`
}

// tourDoc is the order in which to try the avenues for one find.
type tourDoc struct {
	Find    int           `json:"find"` // place in finds
	Slot    string        `json:"slot"`
	Profile string        `json:"profile"`
	Worth   catalog.Cents `json:"worth_cents"`
	Expects catalog.Cents `json:"expected_cents"`
	Tries   []tryDoc      `json:"tries"`
}

type tryDoc struct {
	Avenue string        `json:"avenue"`
	Where  string        `json:"where"`
	Cost   catalog.Cents `json:"cost_cents"` // of a try
	Chance float64       `json:"chance"`     // to find one
	Likely catalog.Cents `json:"likely_cents"`
	Skip   catalog.Cents `json:"skip_cents"` // not worth a try with one in hand for this or less
}

type findDoc struct {
	Slot    string        `json:"slot"`
	Profile string        `json:"profile"`
	Kind    string        `json:"kind"`
	Metal   string        `json:"metal"` // that it is taken to be made of: the usual one of the slot
	Grade   *float64      `json:"grade"` // as it lies; null: sound, to be plated
	Work    string        `json:"work"`
	Plater  string        `json:"plater"`
	Level   string        `json:"level"`
	Worth   catalog.Cents `json:"worth_cents"` // at most, freight included
	Needed  bool          `json:"needed"`      // without it nothing meets the target
	Proven  bool          `json:"proven"`
}

type pairDoc struct {
	Finds    [2]int        `json:"finds"` // places in finds
	Together catalog.Cents `json:"together_cents"`
	Singly   catalog.Cents `json:"one_by_one_cents"`
}

// HuntJSON writes the answer of hunt as one JSON document.
func HuntJSON(h *ask.Hunted) (string, error) {
	st := h.Plan.Of
	doc := huntDoc{Format: Format, Title: st.Job.Title, Within: withinDays(st), Status: h.Plan.Status.String(), Currency: st.Job.Currency, Finds: []findDoc{}, Pairs: []pairDoc{}, Leads: []leadDoc{}, Tours: []tourDoc{}, Whole: h.Whole}
	if h.Plan.Has {
		doc.Expected = &h.Plan.Expected
	}
	for i := range h.Finds {
		f := &h.Finds[i]
		c := choiceDoc{Work: f.Choice.Work, Level: f.Choice.Level}
		if f.Choice.Plated() {
			c.Plater = st.Platers[f.Choice.Plater].ID
		}
		d := findDoc{Slot: st.Slots[f.Slot].ID, Profile: f.Profile.Name, Kind: string(f.Profile.Kind), Metal: st.Tables.Metals[f.Metal].Name,
			Work: c.Work, Plater: c.Plater, Level: c.Level, Worth: f.Worth, Needed: f.Rescues, Proven: !f.Stopped}
		if f.Profile.Grade.Set {
			g := hundredths(f.Profile.Grade.V)
			d.Grade = &g
		}
		doc.Finds = append(doc.Finds, d)
	}
	for i := range h.Leads {
		l := &h.Leads[i]
		d := leadDoc{Piece: plan.PieceName(st, l.Piece), Slot: st.Slots[l.Slot].ID, Reserve: l.Reserve, Worth: l.Worth, Needed: l.Needed, Proven: !l.Unproven}
		if l.HasLast {
			d.LastDay = &l.LastDay
			d.LastOn = onDate(st, l.LastDay)
		}
		doc.Leads = append(doc.Leads, d)
	}
	for _, t := range ask.Tours(st, h) {
		d := tourDoc{Expects: t.Expects, Slot: st.Slots[t.Find.Slot].ID, Profile: t.Find.Profile.Name, Worth: t.Find.Worth, Find: slices.IndexFunc(h.Finds, func(f ask.Find) bool {
			return f.Slot == t.Find.Slot && f.Profile.Name == t.Find.Profile.Name
		})}
		for _, try := range t.Tries {
			a := &st.Avenues[try.Avenue]
			d.Tries = append(d.Tries, tryDoc{a.ID, a.Where, a.Cost, millionths(a.Chance), a.Likely, try.Reserve})
		}
		doc.Tours = append(doc.Tours, d)
	}
	for _, p := range h.Pairs {
		doc.Pairs = append(doc.Pairs, pairDoc{[2]int{p.A, p.B}, p.Together, h.Finds[p.A].Worth + h.Finds[p.B].Worth})
	}
	return toJSON(doc)
}
