package model

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// planWarnings says what the plan's choices warn of, and which fallbacks would
// break a match rule if they came to hang.
func planWarnings(st *catalog.State, plan *Plan) []string {
	var out []string
	add := func(s string) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for i := range plan.Lines {
		l := &plan.Lines[i]
		for _, c := range []*Choice{l.Choice, l.Fallback} {
			if c == nil {
				continue
			}
			for _, w := range c.Warnings {
				add(fmt.Sprintf("%s in %s: %s", PieceName(st, c.Piece), st.Slots[l.Slot].ID, w))
			}
		}
	}
	for i := range st.Matches {
		for _, w := range fallbackClashes(st, plan, &st.Matches[i]) {
			add(w)
		}
	}
	return out
}

// fallbackClashes looks at each fallback of a match group against the chosen
// pieces of the group's other slots.
func fallbackClashes(st *catalog.State, plan *Plan, m *catalog.Match) []string {
	var out []string
	for i := range plan.Lines {
		l := &plan.Lines[i]
		if l.Fallback == nil || !slices.Contains(m.Slots, l.Slot) {
			continue
		}
		for o := range plan.Lines {
			other := &plan.Lines[o]
			if o == i || !slices.Contains(m.Slots, other.Slot) {
				continue
			}
			if why := clash(st, m, l.Fallback, other.Choice); why != "" {
				out = append(out, fmt.Sprintf("if %s falls back on %s, it breaks match %q: its %s is not that of %s",
					st.Slots[l.Slot].ID, PieceName(st, l.Fallback.Piece), m.ID, why, st.Slots[other.Slot].ID))
				break
			}
		}
	}
	return out
}

// clash names what keeps two choices from matching, "" where they match.
func clash(st *catalog.State, m *catalog.Match, a, b *Choice) string {
	qa, qb := platedBy(st, a), platedBy(st, b)
	switch {
	case m.GradeWithin.Set && magnitude(a.Grade-b.Grade) > m.GradeWithin.V:
		return "grade"
	case m.ToneWithin.Set && magnitude(a.Tone-b.Tone) > m.ToneWithin.V:
		return "tone"
	case m.SamePlater && qa != catalog.None && qb != catalog.None && qa != qb:
		return "plater"
	case m.FreshAlike && a.Fresh != b.Fresh:
		return "finish (fresh or not)"
	}
	return ""
}
