package plan

import (
	"strings"

	"brightset/catalog"
)

// Way says what is done to the piece of a choice and by whom, in the words of the trade:
// "as it is", "cleaned", "Brackwater, driver finish, dents raised first".
func Way(st *catalog.State, c *Choice) string {
	text := BriefWay(st, c)
	var first, after []string
	for _, part := range c.Parts {
		if part.Work == catalog.None {
			continue
		}
		w := &st.Tables.Works[part.Work]
		if w.AfterPlating() {
			after = append(after, w.Told())
		} else if c.Plated() {
			first = append(first, w.Told())
		}
	}
	if len(first) > 0 {
		text += ", " + strings.Join(first, ", ") + " first"
	}
	if len(after) > 0 {
		text += ", " + strings.Join(after, ", ")
		if c.Plated() { // else it is back
			text += " after"
		}
	}
	return text
}

// BriefWay is a way without the works that plating calls for: "as it is", "cleaned",
// "Brackwater, driver finish".
func BriefWay(st *catalog.State, c *Choice) string { return WayOf(st, c.Work, c.Plater, c.Level) }

// WayOf is a way by its parts, of what is no choice: "plated" where nobody is named for
// it, "" where nothing is.
func WayOf(st *catalog.State, work string, plater int, level string) string {
	text := ""
	switch {
	case plater != catalog.None:
		text = Briefly(st, plater)
	case work == catalog.WorkAsIs:
		return "as it is"
	case work == catalog.WorkClean:
		return "cleaned"
	case work != "":
		text = "plated"
	}
	if level != "" {
		text += ", " + level + " finish"
	}
	return text
}

// Briefly is what a plater is called in a line that names many: the word of his name that is
// his id, else the first one, if no other's is the same.
func Briefly(st *catalog.State, plater int) string {
	for q := range st.Platers {
		if q != plater && strings.EqualFold(oneWord(&st.Platers[q]), oneWord(&st.Platers[plater])) {
			return st.Platers[plater].Name
		}
	}
	return oneWord(&st.Platers[plater])
}

func oneWord(q *catalog.Plater) string {
	words := strings.Fields(q.Name)
	for i, word := range words {
		words[i] = strings.TrimRight(word, ",;:")
		if strings.EqualFold(words[i], q.ID) {
			return words[i]
		}
	}
	if len(words) > 1 && strings.EqualFold(words[0], "the") {
		words = words[1:]
	}
	if len(words) == 0 {
		return q.ID
	}
	return words[0]
}
