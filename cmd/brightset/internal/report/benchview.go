package report

import (
	"fmt"
	"html/template"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"
)

// The bench page shows the same facts in the same words as the other answers: what it
// shows is put together here, and only how it looks is the page's.

// BenchSlot is one slot in the list at the side.
type BenchSlot struct {
	ID, Name string
	State    string // "hung", "at pell", "planned" ...
	What     string // the piece and the work
	Locked   bool
}

// BenchCard is one piece beside others: the same rows in the same order for all.
type BenchCard struct {
	Key, Label, Title string
	Mark              string // hangs, in reserve, dearer, out
	Facts             [][2]string
	Findings          []BenchFinding
	Can               []BenchChoice
	Why               string // why it is out
	AtPlater          string
	Stage             string
	Photos            int
	Lead, ForSale     bool
	Fitted            bool
}

// BenchFinding is a fault that was found, by its name in the files.
type BenchFinding struct{ ID, Text string }

// BenchChoice is one thing that can be done with a piece.
type BenchChoice struct {
	Work, Plater, Level string
	Text                string
	Cost, Breaks, Grade string
	Out                 string // why not, "" where it can
	Chosen              bool
}

// BenchSlots lists the slots with where they stand.
func BenchSlots(p *plan.Plan) []BenchSlot {
	var all []BenchSlot
	for s := range p.Of.Slots {
		one := BenchSlot{ID: p.Of.Slots[s].ID, Name: p.Of.Slots[s].Name, State: "not planned"}
		if p.Has {
			c := p.Lines[s].Choice
			piece := p.PieceOf(c)
			one.What = p.Label(c)
			one.State = "planned"
			if piece.Stage != catalog.StageSeen || piece.AtPlater() {
				one.State = stageText(p.Of, piece)
			}
		}
		for _, l := range p.Of.Locks {
			one.Locked = one.Locked || l.Slot == s
		}
		all = append(all, one)
	}
	return all
}

// BenchCards are the pieces for one slot, the one that hangs first, then the one in
// reserve, then by what the set costs more with each, then those that are out.
func BenchCards(p *plan.Plan, rejected []ask.RejectedPiece, slot int) []BenchCard {
	choices, outs := choice.Choices(p.Of)[slot], choice.ExclusionsFor(p.Of, slot)
	var all []BenchCard
	done := map[int]bool{}
	add := func(i int, mark, set, why string) {
		if !done[i] {
			done[i] = true
			all = append(all, benchCard(p, slot, i, mark, set, why, choices, outs))
		}
	}
	if p.Has {
		l := &p.Lines[slot]
		add(l.Choice.Piece, "hangs", "as advised", "")
		if l.Fallback != nil {
			add(l.Fallback.Piece, "in reserve", "as advised", "")
		}
	}
	for i := range rejected {
		if r := &rejected[i]; r.Slot == slot && r.Choice != nil {
			mark, set := "dearer", catalog.FormatMoney(r.More)+" more"
			if r.More == 0 {
				mark, set = "as good", "the same"
			}
			add(r.Piece, mark, set, "")
		}
	}
	for i := range rejected {
		if r := &rejected[i]; r.Slot == slot && r.Choice == nil {
			why := r.Why
			if r.Both {
				why = "no set with it meets all that is asked for"
			}
			add(r.Piece, "out", "", why)
		}
	}
	for i := range p.Of.Pieces {
		if fits(&p.Of.Pieces[i], slot) {
			add(i, goneMark(&p.Of.Pieces[i]), "", "")
		}
	}
	return all
}

func goneMark(p *catalog.Piece) string {
	if p.Gone() {
		return "gone"
	}
	return "not in use"
}

func benchCard(p *plan.Plan, slot, i int, mark, set, why string, choices []plan.Choice, outs []choice.Exclusion) BenchCard {
	piece := &p.Of.Pieces[i]
	card := BenchCard{Key: piece.Key(), Label: p.Of.PieceLabel(i), Title: named(piece.Name, p.Of.PieceLabel(i)), Mark: mark, Why: why,
		Stage: stageText(p.Of, piece), Photos: len(piece.Photos), Lead: piece.Chance < catalog.One, ForSale: piece.Side != catalog.Customers && piece.Price > 0, Fitted: piece.Fitted}
	if piece.AtPlater() {
		card.AtPlater = p.Of.Platers[piece.Sent.Plater].ID
	}
	asIs := "not graded"
	if g, ok := choice.AsIsGrade(p.Of, i); ok {
		asIs = gradeText(p.Of, g)
	}
	card.Facts = [][2]string{{"Tag", tagOf(piece)}, {"Whose, kind", source(p.Of, piece) + ", " + string(piece.Kind) + ", " + metalText(p.Of, piece)}, {"Stage", card.Stage}, {"As it lies", asIs}}
	if piece.Place != "" {
		card.Facts = append(card.Facts, [2]string{"Lies", piece.Place})
	}
	if set != "" {
		card.Facts = append(card.Facts, [2]string{"The whole set", set})
	}
	for k := range piece.Findings {
		card.Findings = append(card.Findings, BenchFinding{piece.Findings[k].ID, findingText(p.Of, &piece.Findings[k])})
	}
	for k := range choices {
		c := &choices[k]
		if c.Piece != i {
			continue
		}
		one := BenchChoice{Work: c.Work, Level: c.Level, Text: work(p.Of, c), Cost: catalog.FormatMoney(c.Cash), Breaks: Percent(c.Breakage), Grade: gradeText(p.Of, c.Grade),
			Out: whys(program.Admit(p.Of, c, program.Planned))}
		if c.Plated() {
			one.Plater = p.PlaterOf(c).ID
		}
		one.Chosen = p.Has && p.Lines[slot].Choice.Piece == i && p.Label(p.Lines[slot].Choice) == p.Label(c)
		card.Can = append(card.Can, one)
	}
	if len(card.Can) == 0 && card.Why == "" {
		card.Why = join(cant(p.Of, i, outs))
	}
	return card
}

// SlotAsks says what a slot asks for, on one line.
func SlotAsks(st *catalog.State, slot int) string { return oneLine(slotText(st, slot)) }

// PlanRows are the sums of a plan against what was asked for.
func PlanRows(p *plan.Plan) [][2]string { return figureRows(p) }

// Verdict says what is known of a plan's being the cheapest.
func Verdict(p *plan.Plan) string { return oneLine(verdict(p)) }

// Standing says where the job is; "" where nothing was recorded.
func Standing(st *catalog.State) string { return oneLine(standing(st)) }

// Changes are the slots that another plan fills otherwise, in words.
func Changes(was, now *plan.Plan) []string { return DifferencesText(was, now) }

// ChangeLine is the difference of two plans in one line: "3 slots change, 180.00 more,
// mean 91.0 to 88.0".
func ChangeLine(was, now *plan.Plan) string {
	diff := plan.Differences(was, now)
	if len(diff) == 0 {
		return "nothing changes"
	}
	verb := "slots change"
	if len(diff) == 1 {
		verb = "slot changes"
	}
	return fmt.Sprintf("%d %s, %s, mean %.1f to %.1f", len(diff), verb, moreOrLess(now.Expected-was.Expected), was.Grade, now.Grade)
}

// BindingLines say what every lock and ban costs.
func BindingLines(st *catalog.State, all []ask.Binding) []string {
	var out []string
	for i := range all {
		out = append(out, bindingHead(st, &all[i])+": "+bindingCost(&all[i]))
	}
	return out
}

// WhyRows are all ways for a slot with what the set comes to, the cheapest first, and
// WhyTurns the figures at which the decision turns.
func WhyRows(w *ask.Why) [][]string {
	var out [][]string
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		more := "no set with it meets all demands"
		if way.Plan.Has {
			more = catalog.FormatMoney(way.More) + " more"
			if way.More == 0 {
				more = "the least"
			}
			if way.Slack && way.More > 0 {
				more += ", within the error of the estimates"
			}
		}
		out = append(out, []string{w.Advised.Label(way.Choice), more, causes(w.Advised, way.Reasons)})
	}
	return out
}

// WhyTurns are the figures at which the decision turns, in words.
func WhyTurns(w *ask.Why) []string { return points(w) }

// OtherRows set other plans beside the advised one.
func OtherRows(advised *plan.Plan, all []ask.Other) [][]string {
	row := func(name string, p *plan.Plan, note string) []string {
		if p == nil || !p.Has {
			return []string{name, "", "", "", note}
		}
		return []string{name, catalog.FormatMoney(p.Expected), catalog.FormatMoney(p.Outlay), fmt.Sprintf("%.1f", p.Grade), note}
	}
	out := [][]string{row("advised", advised, "")}
	for i := range all {
		o := &all[i]
		if o.Plan == nil || !o.Plan.Has {
			out = append(out, row(otherName(o, i+1), nil, otherMissing(o)))
			continue
		}
		out = append(out, row(otherName(o, i+1), o.Plan, ChangeLine(advised, o.Plan)))
	}
	return out
}

// Charts are the three pictures of a plan.
func Charts(p *plan.Plan, r *risk.Risk, curve *ask.Curve) (money, dots, frontier template.HTML) {
	var sums []catalog.Cents
	for i := range 20 {
		sums = append(sums, r.Cash.Quantile((float64(i)+0.5)/20))
	}
	money, dots = moneyChart(p.Of, moneyParts(p)), dotsChart(p, sums)
	if curve != nil && curve.NoPlan == nil && len(curve.Points) > 0 {
		frontier = frontierChart(p, curve)
	}
	return money, dots, frontier
}

// Defects are the faults that can be found, for the buttons.
func Defects(st *catalog.State) [][2]string {
	var out [][2]string
	for i := range st.Tables.Defects {
		out = append(out, [2]string{st.Tables.Defects[i].Name, st.Tables.Defects[i].Describe})
	}
	return out
}

// StopRows are the prices after stripping at which to stop.
func StopRows(st *catalog.State, all []ask.StopPrice) [][]string {
	var out [][]string
	for i := range all {
		s := &all[i]
		highest := catalog.FormatMoney(s.Highest)
		if s.NoOther && !s.ByBudget {
			highest = "no other way"
		}
		out = append(out, []string{plan.PieceName(st, s.Choice.Piece) + " for " + st.Slots[s.Slot].Name, st.Platers[s.Choice.Plater].ID, catalog.FormatMoney(s.Planned), highest})
	}
	return out
}

// PlanLines are the lines of a plan with their charges.
func PlanLines(p *plan.Plan) [][]string {
	var out [][]string
	for i := range p.Lines {
		l := &p.Lines[i]
		out = append(out, []string{p.SlotOf(l).Name, p.Label(l.Choice), held(p.Of, l), catalog.FormatMoney(l.Expected), gradeText(p.Of, l.Choice.Grade)})
	}
	for _, c := range p.Charges {
		out = append(out, []string{"", chargeText(p.Of, c), "", catalog.FormatMoney(c.Cents), ""})
	}
	return append(out, []string{"in all", "", "", catalog.FormatMoney(p.Expected), fmt.Sprintf("%.1f", p.Grade)})
}

// JournalRows are the entries that stand, the newest first.
func JournalRows(st *catalog.State) [][]string {
	var out [][]string
	if st.Record == nil {
		return nil
	}
	for i := len(st.Record.Entries) - 1; i >= 0; i-- {
		e := &st.Record.Entries[i]
		text := EntryText(e)
		if e.Reason != "" {
			text += ": " + e.Reason
		}
		out = append(out, []string{fmt.Sprint(e.Seq), e.Day().Format("2006-01-02"), text, changedText(e)})
	}
	return out
}

func fits(p *catalog.Piece, slot int) bool {
	for _, s := range p.Fits {
		if s == slot {
			return true
		}
	}
	return false
}
