package report

import (
	"strings"

	"brightset/catalog"
	"brightset/model/plan"
)

// wayText says what is done to the piece of a choice and by whom, in the words of the trade:
// "as it is", "cleaned", "Brackwater, driver finish, dents raised first".
func wayText(st *catalog.State, c *plan.Choice) string {
	switch {
	case c.Work == catalog.WorkAsIs:
		return "as it is"
	case c.Work == catalog.WorkClean:
		return "cleaned"
	}
	text := finishText(st, c) + " finish"
	if c.Level == "" {
		text = finishText(st, c)
	}
	var first, after []string
	for _, part := range c.Parts {
		if part.Work == catalog.None {
			continue
		}
		w := &st.Tables.Works[part.Work]
		if w.AfterPlating() {
			after = append(after, w.Told())
		} else {
			first = append(first, w.Told())
		}
	}
	if len(first) > 0 {
		text += ", " + strings.Join(first, ", ") + " first"
	}
	if len(after) > 0 {
		text += ", " + strings.Join(after, ", ") + " after"
	}
	return text
}

// finishText is a way in brief: "as it is", "cleaned", "Brackwater, driver".
func finishText(st *catalog.State, c *plan.Choice) string {
	switch {
	case c.Work == catalog.WorkAsIs:
		return "as it is"
	case c.Work == catalog.WorkClean:
		return "cleaned"
	case c.Level == "":
		return briefly(st, c.Plater)
	}
	return briefly(st, c.Plater) + ", " + c.Level
}

// briefly is what a plater is called in a line that names many: the first word of his name,
// if no other's begins with it.
func briefly(st *catalog.State, plater int) string {
	first := func(q int) string {
		words := strings.Fields(st.Platers[q].Name)
		if len(words) > 1 && strings.EqualFold(words[0], "the") {
			words = words[1:]
		}
		if len(words) == 0 {
			return st.Platers[q].ID
		}
		return strings.TrimRight(words[0], ",;:")
	}
	for q := range st.Platers {
		if q != plater && strings.EqualFold(first(q), first(plater)) {
			return st.Platers[plater].Name
		}
	}
	return first(plater)
}
