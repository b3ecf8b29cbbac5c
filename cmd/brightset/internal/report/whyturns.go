package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
)

// points says where the decision turns, choice by choice.
func points(w *ask.Why) []string {
	var all []string
	for from := 0; from < len(w.Points); {
		to := from
		for to < len(w.Points) && w.Points[to].Choice == w.Points[from].Choice {
			to++
		}
		name := plan.Told(w.Advised.Of, w.Points[from].Choice)
		if w.Advised.Has && plan.SameChoice(w.Points[from].Choice, w.Advised.Lines[w.Slot].Choice) {
			all = append(all, stays(name, w.Points[from:to]))
		} else {
			all = append(all, takesOver(name, w.Points[from:to]))
		}
		from = to
	}
	for i := range w.Unsettled {
		all = append(all, unsettled(w.Advised.Of, &w.Unsettled[i]))
	}
	return all
}

// unsettled tells how far it is known that nothing turns, and where something has.
func unsettled(st *catalog.State, p *ask.Breakpoint) string {
	turned := p.Most + 1
	if p.Most < p.Last {
		turned = p.Most - 1
	}
	why := "is not settled"
	if p.Close {
		why += ": others cost about the same"
	}
	text := plan.Told(st, p.Choice) + ": "
	switch {
	case p.Last == p.Now && !p.Turns:
		return text + fmt.Sprintf("where another %s%s turns the decision %s", figureName(p), now(p), why)
	case p.Last == p.Now:
		return text + fmt.Sprintf("with its %s at %s%s the decision has turned; where before that %s", figureName(p),
			figureValue(p, turned), now(p), why)
	case p.Turns:
		return text + fmt.Sprintf("nothing turns until its %s is %s%s; at %s the decision has turned; where between %s",
			figureName(p), figureValue(p, p.Last), now(p), figureValue(p, turned), why)
	}
	return text + fmt.Sprintf("nothing turns until its %s is %s%s; whether it does further on %s", figureName(p),
		figureValue(p, p.Last), now(p), why)
}

// stays tells the turns of the advised choice.
func stays(name string, points []ask.Breakpoint) string {
	var until, never []string
	for i := range points {
		p := &points[i]
		switch worse := p.Figure == choice.FigureGrade; {
		case p.Never:
			never = append(never, "its "+figureName(p)+now(p))
		case worse && p.Last == p.Now:
			until = append(until, "its "+figureName(p)+" falls at all"+now(p))
		case worse:
			until = append(until, "its "+figureName(p)+" falls below "+figureValue(p, p.Last)+now(p))
		case p.Last == p.Now:
			until = append(until, "its "+figureName(p)+" rises at all"+now(p))
		default:
			until = append(until, "its "+figureName(p)+" passes "+figureValue(p, p.Last)+now(p))
		}
	}
	text := name + " stays the choice"
	if len(until) > 0 {
		text += " until " + orList(until)
	}
	if len(never) > 0 {
		text += "; whatever " + orList(never)
	}
	return text
}

// takesOver tells the turns of the runner-up.
func takesOver(name string, points []ask.Breakpoint) string {
	var once, never []string
	for i := range points {
		p := &points[i]
		switch better := p.Figure == choice.FigureGrade; {
		case p.Never:
			never = append(never, figureName(p)+now(p))
		case better && p.Last == p.Now:
			once = append(once, "its "+figureName(p)+" rises at all"+now(p))
		case better:
			once = append(once, "its "+figureName(p)+" passes "+figureValue(p, p.Last)+now(p))
		case p.Last == p.Now:
			once = append(once, "its "+figureName(p)+" falls at all"+now(p))
		default:
			once = append(once, "its "+figureName(p)+" falls below "+figureValue(p, p.Last)+now(p))
		}
	}
	if len(once) == 0 {
		return name + " does not become the choice through another " + orList(never) + " alone"
	}
	text := name + " becomes the choice once " + orList(once)
	if len(never) > 0 {
		text += "; another " + orList(never) + " alone does not do it"
	}
	return text
}

func now(p *ask.Breakpoint) string { return " (now " + figureValue(p, p.Now) + ")" }

// orList joins with commas and an "or".
func orList(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}

// figureName names a figure, as it stands in the files; of plating, the price that is
// agreed after the strip.
func figureName(p *ask.Breakpoint) string {
	name := "grade"
	switch p.Figure {
	case choice.FigurePlating:
		name = "price after stripping"
	case choice.FigurePrice:
		name = "price"
	case choice.FigureBreakage:
		name = "chance of breaking"
	}
	if p.Fitted {
		name += " before fitting"
	}
	return name
}

// figureValue writes a figure to its last digit: a turn is found to the unit.
func figureValue(p *ask.Breakpoint, v int64) string {
	text := catalog.FormatCenti(catalog.Centi(v))
	switch p.Figure {
	case choice.FigurePlating, choice.FigurePrice:
		text = catalog.FormatMoney(catalog.Cents(v))
	case choice.FigureBreakage:
		text = catalog.FormatMicro(catalog.Micro(100*v)) + "%"
	}
	if p.Each && p.Figure != choice.FigureGrade {
		text += " each"
	}
	return text
}
