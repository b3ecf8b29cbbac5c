package report

import (
	"fmt"
	"slices"
	"strings"

	"brightset/model/ask"
	"brightset/model/plan"
)

// huntTable lists what to look out for.
func huntTable(h *ask.Hunted) string {
	t := NewTable("[ ] slot", "look out for", "to be used", ">top price")
	for _, r := range wanted(h) {
		t.Row("[ ] "+r.slots, r.look, r.used, r.top)
	}
	return t.String()
}

// wantedRow is what is looked out for, for one slot or several.
type wantedRow struct{ slots, look, used, top string }

// wanted is what to look out for, the most valuable first. Slots for which the same is looked
// for at the same top price share a row.
func wanted(h *ask.Hunted) (rows []wantedRow) {
	st := h.Plan.Of
	for _, finds := range h.Rows() {
		f := finds[0]
		one := wantedRow{st.Slots[f.Slot].Name, profiles(finds), plan.BriefWay(st, f.Choice), worth(st, f)}
		at := slices.IndexFunc(rows, func(r wantedRow) bool {
			return r.look == one.look && r.used == one.used && r.top == one.top
		})
		if at < 0 {
			rows = append(rows, one)
		} else {
			rows[at].slots += ", " + one.slots
		}
	}
	return rows
}

// profiles names what is looked out for in one row of the list.
func profiles(row []*ask.Find) string {
	var names []string
	for _, f := range row {
		names = append(names, f.Profile.Name)
	}
	return eitherOf(names)
}

// eitherOf joins names of finds with "or", and says what the same words at their ends say
// once: "unused or a reproduction, grade 75 or better".
func eitherOf(names []string) string {
	var heads, tails []string
	for _, name := range names {
		head, tail, _ := strings.Cut(name, ", ")
		if n := len(tails); n > 0 && tails[n-1] == tail {
			heads[n-1] += " or " + head
			continue
		}
		heads, tails = append(heads, head), append(tails, tail)
	}
	for i := range heads {
		if tails[i] != "" {
			heads[i] += ", " + tails[i]
		}
	}
	return strings.Join(heads, "; or ")
}

// pairTexts says which finds are worth something else together than one by one. Finds of
// the same two slots that come to the same share a row.
func pairTexts(h *ask.Hunted) []string {
	type pair struct {
		slots [2]int
		of    [2][]string
		sums  string
	}
	var pairs []pair
	for _, p := range h.Pairs {
		a, b := &h.Finds[p.A], &h.Finds[p.B]
		sums := fmt.Sprintf("%s for both, %s one by one", bracket(p.Together, p.Most),
			bracket(a.Worth+b.Worth, a.Most+b.Most))
		at := slices.IndexFunc(pairs, func(x pair) bool { return x.slots == [2]int{a.Slot, b.Slot} && x.sums == sums })
		if at < 0 {
			at = len(pairs)
			pairs = append(pairs, pair{slots: [2]int{a.Slot, b.Slot}, sums: sums})
		}
		pairs[at].of[0] = unique(append(pairs[at].of[0], a.Profile.Name))
		pairs[at].of[1] = unique(append(pairs[at].of[1], b.Profile.Name))
	}
	var all []string
	for _, p := range pairs {
		first, second := h.Plan.Of.Slots[p.slots[0]].Name, h.Plan.Of.Slots[p.slots[1]].Name
		finds := [2]string{eitherOf(p.of[0]), eitherOf(p.of[1])}
		what := fmt.Sprintf("%s (%s) and %s (%s)", first, finds[0], second, finds[1])
		if finds[0] == finds[1] {
			what = fmt.Sprintf("%s and %s (%s)", first, second, finds[0])
		}
		all = append(all, what+": "+p.sums)
	}
	return all
}
