package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/solver"
)

// Beside is what may stand beside a plan: its locks and bans with what they cost,
// and other plans to weigh against it. The zero value is nothing.
type Beside struct {
	Bindings []ask.Binding
	Others   []ask.Other
	Since    *Since  // nil: nothing to compare with
	Strip    *Strip  // nil: not looked for
	Screen   *Screen // what the first screen says besides the plan; nil where no plan is shown
	// HeldForOne is the plan that holds every spare for one slot, where the plan itself
	// may hold one for two; nil where that was not asked for.
	HeldForOne *plan.Plan
	Differ     int // in how many slots the near-best plans differ at least
}

// othersText sets other plans beside the advised one: the sums in one table, and
// then for each what it does otherwise. "" where none was asked for.
func othersText(advised *plan.Plan, b *Beside) string {
	if len(b.Others) == 0 {
		return ""
	}
	t := NewTable("plan", ">expected", ">more", ">outlay", ">grade", ">slots differ")
	t.Row("advised", catalog.FormatMoney(advised.Expected), "", catalog.FormatMoney(advised.Outlay),
		fmt.Sprintf("%.1f", advised.Grade), "")
	details := ""
	for i := range b.Others {
		o := &b.Others[i]
		name := otherName(o, i)
		if o.Plan == nil || !o.Plan.Has {
			t.Row(name, otherMissing(o))
			continue
		}
		p := o.Plan
		t.Row(name, catalog.FormatMoney(p.Expected), catalog.FormatMoney(p.Expected-advised.Expected),
			catalog.FormatMoney(p.Outlay), fmt.Sprintf("%.1f", p.Grade), fmt.Sprint(o.Differ))
		if p.Status == solver.Stopped {
			t.Span(4, "stopped early, not proven")
		}
		if kept := keepsMore(p.Keeps - advised.Keeps); kept != "" {
			t.Span(4, kept)
		}
		if o.Level {
			t.Span(4, "as good as level: within the error of the estimates")
		}
		details += otherDetails(advised, p, name)
	}
	return Paragraph("", "", fmt.Sprintf("Other plans beside the advised one. "+
		"Numbered: the cheapest that fill %s otherwise than the advised plan and than each other; "+
		"two pieces that only change places don't count.", slotCount(b.Differ))) +
		"\n" + t.String() + "\n" + othersLegend(b) + details
}

// othersLegend says what the named plans are, once.
func othersLegend(b *Beside) string {
	text := "Do-least keeps all of the customer's pieces that pass as they are or cleaned, " +
		"and is the cheapest of those that keep as much. Best finish is the highest mean the budget allows."
	for i := range b.Others {
		if b.Others[i].Kind == ask.OtherUnlocked {
			text += " Without locks is the cheapest, were every locked slot free."
		}
	}
	return Paragraph("", "", text)
}

func otherName(o *ask.Other, place int) string {
	switch o.Kind {
	case ask.OtherLeast:
		return "do-least"
	case ask.OtherFinest:
		return "best finish"
	case ask.OtherUnlocked:
		return "without locks"
	}
	return fmt.Sprintf("other %d", place+1)
}

func otherMissing(o *ask.Other) string {
	switch {
	case o.Plan == nil:
		return "not looked at"
	case o.Plan.Status == solver.Infeasible:
		return "none"
	}
	return "not found"
}

// otherDetails says what a plan does otherwise, and what its charges make of it.
func otherDetails(advised, p *plan.Plan, name string) string {
	items := DifferencesText(advised, p)
	if len(items) == 0 {
		return "\n" + Paragraph("", "", fmt.Sprintf("%s: the same as the advised plan.", upper(name)))
	}
	if rest := restOf(advised, p); rest != 0 {
		items = append(items, "freights, least lots, bundles, credits and reserves: "+moreOrLess(rest))
	}
	sum := "the same sum"
	if p.Expected != advised.Expected {
		sum = moreOrLess(p.Expected - advised.Expected)
	}
	return "\n" + list(fmt.Sprintf("%s, %s:", upper(name), sum), items)
}

func slotCount(n int) string {
	if n == 1 {
		return "at least one slot"
	}
	return fmt.Sprintf("at least %d slots", n)
}

type otherDoc struct {
	Kind        string          `json:"kind"`   // near-best, do-least, best-finish, without-locks
	Status      string          `json:"status"` // as of a plan; not-looked-at
	Expected    *catalog.Cents  `json:"expected_cents"`
	Outlay      *catalog.Cents  `json:"outlay_cents"`
	Grade       *float64        `json:"grade"`
	Level       bool            `json:"within_estimating_error"` // no further off the advised plan in total than that
	Differ      int             `json:"slots_differ"`            // two pieces that change places don't count
	Keeps       catalog.Cents   `json:"keeps_cents"`             // worth to the owner: no money
	More        *catalog.Cents  `json:"more_cents"`              // than the advised plan
	Differences []differenceDoc `json:"differences"`

	// of more_cents, what is in freights, least lots, bundles, credits and reserves
	Rest    catalog.Cents `json:"rest_cents"`
	Changed []string      `json:"changed"` // slots with another planned choice than the advised plan's
	Lines   []lineDoc     `json:"lines"`
	Charges []chargeDoc   `json:"charges"`
}

func otherDocs(advised *plan.Plan, all []ask.Other) []otherDoc {
	docs := []otherDoc{}
	for i := range all {
		o := &all[i]
		d := otherDoc{
			Kind: string(o.Kind), Status: "not-looked-at", Level: o.Level, Differ: o.Differ, Differences: []differenceDoc{},
			Changed: []string{}, Lines: []lineDoc{}, Charges: []chargeDoc{},
		}
		if p := o.Plan; p != nil {
			d.Status = p.Status.String()
			if p.Has {
				grade := finite(p.Grade)
				d.Expected, d.Outlay, d.Grade = &p.Expected, &p.Outlay, &grade
				more := p.Expected - advised.Expected
				d.Keeps = p.Keeps
				d.More, d.Rest, d.Differences = &more, restOf(advised, p), differenceDocs(advised, p)
				d.Changed = changedSlots(advised, p)
				d.Lines, d.Charges = lineDocs(p), chargeDocs(p)
			}
		}
		docs = append(docs, d)
	}
	return docs
}

// upper begins a sentence with a name.
func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
