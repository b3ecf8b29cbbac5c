package program

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// planWarnings says what the plan's choices warn of, and which fallbacks would
// break a match rule if they came to hang.
func planWarnings(st *catalog.State, pl *plan.Plan) []string {
	var out []string
	add := func(s string) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for i := range pl.Lines {
		l := &pl.Lines[i]
		for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
			if c == nil {
				continue
			}
			for _, w := range c.Warnings {
				add(fmt.Sprintf("%s for %s: %s", plan.PieceCalled(st, c.Piece), st.Slots[l.Slot].Name, w))
			}
		}
	}
	if w := manyBaths(st, pl); w != "" {
		add(w)
	}
	if w := bearing(st); w != "" {
		add(w)
	}
	if w := untried(st, pl); w != "" {
		add(w)
	}
	for i := range pl.Lines {
		if w := twoBags(st, pl.Lines[i].Choice); w != "" {
			add(w)
		}
	}
	if w := nothingToKeep(st); w != "" {
		add(w)
	}
	for i := range st.Matches {
		for _, w := range fallbackClashes(st, pl, &st.Matches[i]) {
			add(w)
		}
	}
	return out
}

// manyBaths says where a set that is refinished throughout, for one tone all over, comes
// from more than one plater: few lots are had by what each costs, not by a rule.
func manyBaths(st *catalog.State, pl *plan.Plan) string {
	var names []string
	for i := range pl.Lines {
		c := pl.Lines[i].Choice
		q := choice.PlatedBy(st, c)
		if q == catalog.None || !st.Slots[c.Slot].Target.Redone.Or(false) || slices.Contains(names, st.Platers[q].Name) {
			continue
		}
		names = append(names, st.Platers[q].Name)
	}
	if len(names) < 2 {
		return ""
	}
	return fmt.Sprintf("the set is refinished in more than one lot (%s), for that is cheapest: no two baths give quite "+
		"one tone; a [match.NAME] of its slots with same_plater = true keeps them together", strings.Join(names, ", "))
}

// bearing is the caution about slots on which a hand or a load hangs: what a finish says
// nothing of, and no figure here can. It stands once, however many there are.
func bearing(st *catalog.State) string {
	var names []string
	for s := range st.Slots {
		if st.Slots[s].Bears {
			names = append(names, st.Slots[s].Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("a hand or a load hangs on %s: whether a piece bears it is not to be seen from its finish; "+
		"ask somebody qualified", strings.Join(names, ", "))
}

// untried says which planned reproductions nobody has tried, where the shop gives no chance
// that one doesn't fit: the plan then reckons that all of them do.
func untried(st *catalog.State, pl *plan.Plan) string {
	if st.Shop.Misfit.Set {
		return ""
	}
	var names []string
	for i := range pl.Lines {
		c := pl.Lines[i].Choice
		name := plan.PieceCalled(st, c.Piece)
		if choice.Untried(&st.Pieces[c.Piece], c.Slot) && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("nobody has tried %s on the object, and a reproduction need not fit: hold it up first (then "+
		"tried = true); misfit in [shop], how often one does not fit, has the plan reckon with it", strings.Join(names, ", "))
}

// twoBags says which two bags on the bench would fill a slot.
func twoBags(st *catalog.State, c *plan.Choice) string {
	largest, with, lacks := choice.TwoBags(st, c)
	if largest == catalog.None {
		return ""
	}
	return fmt.Sprintf("%d of %s and %d of %s would fill %s: where they match in the hand, put them together "+
		"(record joined) and plan again", choice.PieceCount(&st.Pieces[largest]), plan.PieceCalled(st, largest), lacks,
		plan.PieceCalled(st, with), st.Slots[c.Slot].Name)
}

// nothingToKeep says that what keeping is worth has no say, since no piece is the object's own.
func nothingToKeep(st *catalog.State) string {
	asked := slices.ContainsFunc(st.Slots, func(s catalog.Slot) bool { return s.Keep > 0 })
	if !asked || slices.ContainsFunc(st.Pieces, func(p catalog.Piece) bool { return p.Off }) {
		return ""
	}
	return "keep has nothing to weigh: no piece says that it came off the object; write off = true to those that did"
}

// fallbackClashes looks at each fallback of a match group against the chosen
// pieces of the group's other slots.
func fallbackClashes(st *catalog.State, pl *plan.Plan, m *catalog.Match) []string {
	var out []string
	for i := range pl.Lines {
		l := &pl.Lines[i]
		if l.Fallback == nil || !slices.Contains(m.Slots, l.Slot) {
			continue
		}
		for o := range pl.Lines {
			other := &pl.Lines[o]
			if o == i || !slices.Contains(m.Slots, other.Slot) {
				continue
			}
			if why := clash(st, m, l.Fallback, other.Choice); why != "" {
				out = append(out, fmt.Sprintf("if %s falls back on %s, it breaks match %q: its %s is not that of %s",
					st.Slots[l.Slot].Name, plan.PieceCalled(st, l.Fallback.Piece), m.ID, why, st.Slots[other.Slot].Name))
				break
			}
		}
	}
	return out
}

// clash names what keeps two choices from matching, "" where they match.
func clash(st *catalog.State, m *catalog.Match, a, b *plan.Choice) string {
	qa, qb := choice.PlatedBy(st, a), choice.PlatedBy(st, b)
	switch {
	case m.GradeWithin.Set && plan.Abs(a.Grade-b.Grade) > m.GradeWithin.V:
		return "grade"
	case m.ToneWithin.Set && plan.Abs(a.Tone-b.Tone) > m.ToneWithin.V:
		return "tone"
	case m.SamePlater && qa != catalog.None && qb != catalog.None && qa != qb:
		return "plater"
	case m.FreshAlike && a.Fresh != b.Fresh:
		return "finish (fresh or not)"
	}
	return ""
}
