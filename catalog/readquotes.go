package catalog

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// oldQuote is the age in days from which a quote should be asked for again.
// Common practice, no published source.
const oldQuote = 180

// readQuote reads one plater's price for a piece.
func (l *loader) readQuote(t *table, p *Piece, metalUnknown bool) Quote {
	t.source = Quoted
	q := Quote{ID: t.id, Plater: None, From: t.here()}
	if t.need("plater", `write plater = "...", the id of a [plater.ID] table`) {
		q.Plater = t.ref("plater", l.platers)
	}
	t.need("cost", `write cost = "240.00"`)
	q.Cost = t.money("cost").V
	q.Work = t.word("work", WorkReplate, WorkRepair)
	q.Firm = Estimate
	if w := t.word("firm", string(Estimate), string(AfterStrip), string(Firm)); w != "" {
		q.Firm = Firmness(w)
	}
	q.Breakage, q.Refused = t.share("breakage"), t.share("refused")
	q.Grade, q.Tone, q.Fresh = t.grade("grade"), t.tone("tone"), t.flag("fresh")
	q.Days = t.whole("days", 0, MaxDays)
	q.Low, q.High, q.Date = t.money("low"), t.money("high"), t.date("date")
	q.Known = Val[[]string]{V: t.texts("known"), Set: t.has("known"), From: t.from("known")}
	q.Level = t.level("level", q.Plater)
	t.done()
	t.checkRange(&q)
	t.checkDate(&q)
	if q.Plater != None && !l.partial {
		t.checkGrade(&q, p, metalUnknown)
	}
	return q
}

// level reads the name of a level: one of the plater's, or of any plater's
// where none is given.
func (t *table) level(key string, plater int) string {
	name := t.text(key)
	if name == "" {
		if v, ok := t.raw(key); ok && v == "" {
			t.wrong(key, "the name of the level is empty", "leave the key out")
		}
		return ""
	}
	var known []string
	for i := range t.l.state.Platers {
		if plater != None && i != plater {
			continue
		}
		for _, l := range t.l.state.Platers[i].Levels {
			if strings.EqualFold(l.Name, name) {
				return l.Name
			}
			known = append(known, l.Name)
		}
	}
	if t.l.partial || t.has("plater") && plater == None {
		return name // the plater himself is unknown, which is reported
	}
	whose := "no plater"
	if plater != None {
		if slices.Contains(t.l.platers.doubled, plater) {
			return "" // his levels may stand in the other table, which is reported
		}
		whose = fmt.Sprintf("plater %q", t.l.state.Platers[plater].ID)
		table := fmt.Sprintf("write a table [plater.%s.level.%s]", keyText(t.l.state.Platers[plater].ID), keyText(clip(name)))
		t.wrong(key, fmt.Sprintf("%s has no level %q", whose, clip(name)), t.l.meant(name, known, orOneOf(known, table)))
		return ""
	}
	t.wrong(key, fmt.Sprintf("%s has a level %q", whose, clip(name)), t.l.meant(name, known, ""))
	return ""
}

// checkRange looks at the lowest and highest cost.
func (t *table) checkRange(q *Quote) {
	switch {
	case q.Low.Set && q.High.Set && q.Low.V > q.High.V:
		t.wrong("low", fmt.Sprintf("the low %s is above the high %s", FormatMoney(q.Low.V), FormatMoney(q.High.V)),
			"swap low and high")
	case q.Low.Set && q.Cost < q.Low.V, q.High.Set && q.Cost > q.High.V:
		t.l.warn(q.From, fmt.Sprintf("%s: the cost %s is not between low and high", t.what, FormatMoney(q.Cost)))
	}
}

func (t *table) checkDate(q *Quote) {
	if !q.Date.Set || t.l.opt.Today.IsZero() {
		return
	}
	days := int(dayOf(t.l.opt.Today).Sub(q.Date.V) / (24 * time.Hour))
	switch {
	case days < 0:
		t.l.warn(q.Date.From, fmt.Sprintf("%s is dated in the future", t.what))
	case days > oldQuote:
		t.l.warn(q.Date.From, fmt.Sprintf("%s is %d days old; ask whether it still holds", t.what, days))
	}
}

// checkGrade makes sure that the grade a quoted piece comes out at is known:
// given, or that of the quote's level, or of the plater's only one.
func (t *table) checkGrade(q *Quote, p *Piece, metalUnknown bool) {
	plater := &t.l.state.Platers[q.Plater]
	if t.has("grade") || t.has("level") && q.Level == "" {
		return // given, or wrong and reported
	}
	why := ""
	switch {
	case metalUnknown:
		why = "the metal is unknown"
	case p.Metal == None:
		return // reported
	case q.Level == "" && len(plater.Levels) != 1:
		why = fmt.Sprintf("it gives no level, and plater %q has %d", plater.ID, len(plater.Levels))
	default:
		for _, l := range plater.Levels {
			if (l.Name == q.Level || q.Level == "") && !t.l.spoilt[join("plater", plater.ID, "level", l.Name)] &&
				!l.Grade[p.Metal].Set {
				why = fmt.Sprintf("level %q says none for %s", l.Name, t.l.state.Tables.Metals[p.Metal].Name)
			}
		}
	}
	if why != "" {
		t.wrongHere(fmt.Sprintf("%s gives no grade and none follows: %s", t.what, why),
			"write grade = 85 or a word such as \"nice\", what the piece will look like")
	}
}

// dayOf is the day of a moment, as the dates in files are kept.
func dayOf(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}
