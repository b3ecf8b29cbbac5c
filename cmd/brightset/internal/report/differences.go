package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/plan"
)

// DifferencesText says what two plans do otherwise, alike changes of several slots in one
// row. What only changes places with its like is not told.
func DifferencesText(was, now *plan.Plan) []string {
	var rows []differenceRow
	for _, d := range plan.WithoutSwaps(plan.Differences(was, now)) {
		one := differenceOf(was.Of, &d)
		at := -1
		for i := range rows {
			if rows[i].change == one.change && rows[i].way == one.way {
				at = i
			}
		}
		if at < 0 {
			rows = append(rows, one)
			continue
		}
		rows[at].slots, rows[at].sums = append(rows[at].slots, one.slots...), append(rows[at].sums, one.sums...)
	}
	var all []string
	for i := range rows {
		all = append(all, rows[i].String())
	}
	return all
}

// differenceRow is a change that one slot or several go through.
type differenceRow struct {
	slots  []string
	change string
	sums   []string // per slot; none where only the reserve differs
	way    string   // "more" or "less"
}

func (r *differenceRow) String() string {
	text := strings.Join(r.slots, ", ") + ": " + r.change
	if len(r.sums) == 0 {
		return text
	}
	return text + ": " + strings.Join(r.sums, " and ") + " " + r.way
}

func differenceOf(st *catalog.State, d *plan.Difference) differenceRow {
	row := differenceRow{slots: []string{st.Slots[d.Slot].Name}}
	if d.SameChoice() {
		row.change = fmt.Sprintf("in reserve %s instead of %s", held(st, d.Now), held(st, d.Was))
		return row
	}
	was, now := d.Was.Choice, d.Now.Choice
	row.change = fmt.Sprintf("%s instead of %s", briefly(st, now), briefly(st, was))
	if now.Piece == was.Piece {
		row.change = fmt.Sprintf("%s instead of %s", plan.BriefWay(st, now), plan.BriefWay(st, was))
		if plan.BriefWay(st, now) == plan.BriefWay(st, was) {
			row.change = fmt.Sprintf("%s instead of %s", plan.WayOnQuote(st, now), plan.WayOnQuote(st, was))
		}
	}
	more := d.Now.Expected - d.Was.Expected
	row.way = "more"
	if more < 0 {
		more, row.way = -more, "less"
	}
	row.sums = []string{catalog.FormatMoney(more)}
	return row
}

// briefly names a choice without the works that plating calls for.
func briefly(st *catalog.State, c *plan.Choice) string {
	return plan.PieceCalled(st, c.Piece) + ", " + plan.BriefWay(st, c)
}

func held(st *catalog.State, l *plan.Line) string {
	if l.Fallback == nil {
		return "nothing"
	}
	return briefly(st, l.Fallback)
}
