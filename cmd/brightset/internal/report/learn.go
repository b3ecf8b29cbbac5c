package report

import (
	"fmt"
	"math"

	"brightset/catalog"
	"brightset/model/risk"
)

// Lesson is what was learnt, and from how many jobs.
type Lesson struct {
	*risk.Learnt
	Jobs int
}

func (l *Lesson) from() string {
	return fmt.Sprintf("%s of %s", count(l.Count, "piece"), count(l.Jobs, "job"))
}

// Learn writes what a shop's journals teach: every figure with how many outcomes it rests
// on and the interval that holds the truth in four of five such cases.
func Learn(l *Lesson) string {
	text := Paragraph("", "", l.intro())
	if l.Count == 0 {
		return text + "\n" + Paragraph("", "", "Nothing yet. It is learnt from what is recorded: sent, back, broke, "+
			"refused (brightset help record).")
	}
	t := NewTable(metalHeads...)
	for _, row := range l.metalRows() {
		t.Row(row...)
	}
	p := NewTable(platerHeads...)
	for _, row := range l.platerRows() {
		p.Row(row...)
	}
	text += "\n" + t.String() + Paragraph("", "", metalNote) + "\n" + p.String()
	for _, off := range l.guessesOff() {
		text += Paragraph("", "", off)
	}
	return text + Paragraph("", "", platerNote)
}

func (l *Lesson) intro() string {
	return fmt.Sprintf("Learnt from %s that went to platers and came back, broke or were refused.", l.from())
}

// The heads of what was learnt, and what stands below.
var (
	metalHeads  = []string{"metal, work", ">pieces", ">broke", ">expected", ">breaks", "4 in 5", ">refused", "4 in 5"}
	platerHeads = []string{"plater", ">pieces", ">paid/agreed", "4 in 5", ">days late", ">grade off", ">broke",
		">expected"}
)

const (
	metalNote = "Expected: by the starting values alone, of the pieces not sent back. 4 in 5: it lies between " +
		"these in four of five such cases. Mended: worked on before it was plated. * too few of its own: the " +
		"metal's as a whole."
	platerNote = "Paid/agreed: of prices that he named, our own estimates aside. " +
		"Days late and grade off: on average, ± the spread of single pieces. Expected breaks of a plater: " +
		"by the metals as they are learnt, of the pieces not sent back."
)

// metalRows are a metal's pieces, and below them those that had the same work.
func (l *Lesson) metalRows() (rows [][]string) {
	for i := range l.Metals {
		m := &l.Metals[i]
		name := m.Metal
		if m.Work != "" {
			did := map[string]string{catalog.WorkReplate: "plated", catalog.WorkRepair: "mended"}
			name = "  " + did[m.Work]
			if m.Pooled {
				name += " *"
			}
		}
		rows = append(rows, []string{name, fmt.Sprint(m.N), fmt.Sprint(m.Broke), fmt.Sprintf("%.1f", m.Predicted),
			share(m.Mean), between(m.Low, m.High), share(m.RefusedMean), between(m.RefusedLow, m.RefusedHigh)})
	}
	return rows
}

func (l *Lesson) platerRows() (rows [][]string) {
	for i := range l.Platers {
		q := &l.Platers[i]
		rows = append(rows, []string{q.Plater, fmt.Sprint(q.N), ratio(q), ratioWithin(q),
			signedMean(q.Late, q.LateSD, q.LateN), signedMean(q.Grade, q.GradeSD, q.GradeN), fmt.Sprint(q.Broke),
			fmt.Sprintf("%.1f", q.Predicted)})
	}
	return rows
}

func share(v float64) string { return fmt.Sprintf("%.1f%%", 100*v) }

func between(low, high float64) string { return share(low) + "–" + share(high) }

func ratio(q *risk.PlaterRate) string {
	if q.PaidN == 0 {
		return "none"
	}
	return fmt.Sprintf("%.2f of %d", q.Ratio, q.PaidN)
}

func ratioWithin(q *risk.PlaterRate) string {
	if q.PaidN < 2 {
		return ""
	}
	return fmt.Sprintf("%.2f to %.2f", q.RatioLow, q.RatioHigh)
}

// guessesOff says how far the open prices of platers came out from what was reckoned, where
// there were enough of them.
func (l *Lesson) guessesOff() (all []string) {
	for i := range l.Platers {
		if q := &l.Platers[i]; q.SpreadKnown() {
			all = append(all, fmt.Sprintf("Guesses of the work of %s: of %d open prices from %.0f%% below what was "+
				"reckoned to %.0f%% above; that takes the place of the starting spread.", q.Plater, q.GuessN, 100*q.Low,
				100*q.High))
		}
	}
	return all
}

func signedMean(mean, spread float64, n int) string {
	switch n {
	case 0:
		return "none"
	case 1:
		return fmt.Sprintf("%+.1f", mean)
	}
	return fmt.Sprintf("%+.1f ± %.1f", mean, spread)
}

// LearntFile is what learn writes for the shop to include: nothing of what was never worked on,
// whose values are the starting ones still.
func LearntFile(l *Lesson, day string) string {
	var metals []catalog.LearntValue
	var platers []catalog.LearntPlater
	for i := range l.Metals {
		if m := &l.Metals[i]; m.Work == "" && m.Start > 0 && m.Tried() > 0 {
			metals = append(metals, catalog.LearntValue{
				Name:  m.Metal,
				Value: m.Base,
				Rests: fmt.Sprintf("%d of %d broke, %.1f expected; built-in %s", m.Broke, m.Tried(), m.Predicted,
					catalog.FormatMicro(m.Start)),
			})
		}
	}
	for i := range l.Platers {
		q := &l.Platers[i]
		if q.Tried() == 0 {
			continue
		}
		p := catalog.LearntPlater{Factor: catalog.LearntValue{
			Name:  q.Plater,
			Value: thousandths(q.Factor),
			Rests: fmt.Sprintf("%d of %d broke, %.1f expected by the metals above", q.Broke, q.Tried(), q.Predicted),
		}}
		if q.SpreadKnown() {
			p.Low.Value, p.High.Value = thousandths(q.Low), min(thousandths(q.High), catalog.MaxSpread)
			p.Low.Rests = fmt.Sprintf("%d prices came out so far below what was reckoned, at most", q.GuessN)
			p.High.Rests = "and so far above"
		}
		platers = append(platers, p)
	}
	return catalog.LearntFile(day, l.from(), metals, platers)
}

// thousandths rounds a learnt figure: nobody knows it better.
func thousandths(v float64) catalog.Micro { return catalog.Micro(math.Round(v*1000)) * 1000 }

// learnFormat is the version of the answer of learn: in version 1 the keys of metals were
// written otherwise.
const learnFormat = 2

type learnDoc struct {
	Format  int               `json:"format"`
	Pieces  int               `json:"pieces"`
	Jobs    int               `json:"jobs"`
	Metals  []metalDoc        `json:"metals"`
	Platers []risk.PlaterRate `json:"platers"`
}

// metalDoc is a metal's rate. The bases are null but for the metal as a whole, the
// built-in one where there is none.
type metalDoc struct {
	risk.MetalRate
	Start *float64 `json:"base_built_in"`
	Base  *float64 `json:"base_learnt"`
}

func metalDocs(l *Lesson) []metalDoc {
	docs := []metalDoc{}
	for i := range l.Metals {
		d := metalDoc{MetalRate: l.Metals[i]}
		if d.Work == "" && d.MetalRate.Start > 0 {
			start, base := millionths(d.MetalRate.Start), millionths(d.MetalRate.Base)
			d.Start, d.Base = &start, &base
		}
		docs = append(docs, d)
	}
	return docs
}

// LearnJSON writes the same as one JSON document.
func LearnJSON(l *Lesson) (string, error) {
	doc := learnDoc{Format: learnFormat, Pieces: l.Count, Jobs: l.Jobs, Metals: metalDocs(l), Platers: l.Platers}
	if doc.Platers == nil {
		doc.Platers = []risk.PlaterRate{}
	}
	return toJSON(doc)
}

// FactorsBefore says of which platers the shop's files give a factor already: one in the shop's file itself comes
// before what is learnt.
func FactorsBefore(l *Lesson, own map[string]catalog.Micro) (text string) {
	for i := range l.Platers {
		q := &l.Platers[i]
		if now := own[q.Plater]; q.Tried() > 0 && now != 0 && now != catalog.One && now != thousandths(q.Factor) {
			text += Paragraph("", "", fmt.Sprintf("Mind: the shop's files give %s a breakage_factor of %s already. Where it "+
				"stands in the shop's file itself it comes before what is learnt: take it out there.", q.Plater,
				catalog.FormatMicro(now)))
		}
	}
	return text
}
