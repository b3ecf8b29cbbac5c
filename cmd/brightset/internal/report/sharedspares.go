package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/sharedspare"
	"brightset/solver"
)

// sharedSecond says of a line that shares its fallback who else it is for, and what
// happens if both fail.
func sharedSecond(p *plan.Plan, l *plan.Line) string {
	if l.Sharing == nil {
		return ""
	}
	other := p.Of.Slots[l.Sharing.With].Name
	if !l.Sharing.Yields {
		return fmt.Sprintf("the one spare for %s too; if both fail it goes here", other)
	}
	slot := p.SlotOf(l)
	text := fmt.Sprintf("the one spare for %s too; if both fail it goes to %s and a rescue is needed here", other, other)
	if slot.Rescue.V > 0 {
		text += ", " + catalog.FormatMoney(slot.Rescue.V)
	}
	return text
}

// sharedSparesText sets a plan in which two slots may hold one spare against holding it
// for one; "" where that was not asked for.
func sharedSparesText(two, one *plan.Plan) string {
	if one == nil {
		return ""
	}
	t := NewTable("a spare is held for", ">expected", ">no rescue", ">rescues")
	row := func(name string, p *plan.Plan) {
		t.Row(name, catalog.FormatMoney(p.Expected), Percent(catalog.Micro(p.Completion*1e6)),
			fmt.Sprintf("%.3f", sharedspare.RescuesToExpect(p)))
	}
	row("two slots, where that is cheaper", two)
	if one.Has {
		row("one slot", one)
	}
	return t.String() + Paragraph("", "", sharedSparesWords(two, one))
}

// sharedSparesWords says what the comparison comes to.
func sharedSparesWords(two, one *plan.Plan) string {
	const meaning = " Expected is the least total; no rescue, the chance that no slot needs one; " +
		"rescues, how many slots do on average."
	shared := false
	for i := range two.Lines {
		shared = shared || two.Lines[i].Sharing != nil
	}
	unproven := ""
	if one.Status == solver.Stopped || two.Status == solver.Stopped {
		unproven = " Not both are proven to be the least: give it longer with --time-limit."
	}
	switch saved := one.Expected - two.Expected; {
	case !one.Has && one.Status == solver.Infeasible:
		return "With every spare held for one slot nothing meets the target." + meaning + unproven
	case !one.Has:
		return "With every spare held for one slot no plan was found in the time." + meaning
	case !shared:
		return "Sharing saves nothing here: the plan holds every spare for one slot." + unproven
	default:
		return fmt.Sprintf("Holding one spare for two slots saves %s.", catalog.FormatMoney(saved)) + meaning + unproven
	}
}

// sharedSparesDoc is a plan in which two slots may hold one spare against the one in
// which each is held for one slot. Sums are null where there is no plan.
type sharedSparesDoc struct {
	Two   againstDoc     `json:"held_for_two"`
	One   againstDoc     `json:"held_for_one"`
	Saves *catalog.Cents `json:"saves_cents"`
}

type againstDoc struct {
	Status     string         `json:"status"`
	Expected   *catalog.Cents `json:"expected_cents"`
	Completion *float64       `json:"completion"` // that no slot needs a rescue
	Rescues    *float64       `json:"rescues"`    // slots that need one, on average
}

// sharedSparesOf is nil where it was not asked for.
func sharedSparesOf(two, one *plan.Plan) *sharedSparesDoc {
	if one == nil {
		return nil
	}
	doc := &sharedSparesDoc{Two: againstOf(two), One: againstOf(one)}
	if two.Has && one.Has {
		saved := one.Expected - two.Expected
		doc.Saves = &saved
	}
	return doc
}

func againstOf(p *plan.Plan) againstDoc {
	doc := againstDoc{Status: p.Status.String()}
	if p.Has {
		completion, rescues := finite(p.Completion), finite(sharedspare.RescuesToExpect(p))
		doc.Expected, doc.Completion, doc.Rescues = &p.Expected, &completion, &rescues
	}
	return doc
}

// fallbackDoc is a choice held in reserve; of one that two slots share also the other
// slot, and whether this one is rescued if both fail.
type fallbackDoc struct {
	choiceDoc
	Chance     float64 `json:"chance"` // that it comes at all
	Misfit     float64 `json:"misfit"` // that it does not fit once it has come
	SharedWith string  `json:"shared_with,omitempty"`
	Yields     *bool   `json:"yields,omitempty"`
}

func fallbackOf(st *catalog.State, l *plan.Line) *fallbackDoc {
	if l.Fallback == nil {
		return nil
	}
	doc := &fallbackDoc{
		choiceDoc: choiceOf(st, l.Fallback),
		Chance:    millionths(l.Fallback.Chance),
		Misfit:    millionths(l.Fallback.Misfit),
	}
	if l.Sharing != nil {
		yields := l.Sharing.Yields
		doc.SharedWith, doc.Yields = st.Slots[l.Sharing.With].ID, &yields
	}
	return doc
}
