package report

import (
	"strings"

	"brightset/catalog"
)

// The words that files are written in, for who has them open beside the bench.

// wordDoc is a word of the files, what it means, and what else leads to it.
type wordDoc struct {
	Word  string   `json:"word"`
	Means string   `json:"means"`
	Also  []string `json:"also"` // written without spaces and hyphens
}

type tradeWordsDoc struct {
	Format    int       `json:"format"`
	Title     string    `json:"title"`
	Defects   []wordDoc `json:"defects"`
	Works     []wordDoc `json:"works"`
	Metals    []wordDoc `json:"metals"`
	Positions []wordDoc `json:"positions"`
}

func wordOf(word, means string) wordDoc {
	return wordDoc{word, means, append([]string{}, catalog.OtherWords(word)...)}
}

func tradeWords(st *catalog.State) tradeWordsDoc {
	doc := tradeWordsDoc{Format: Format, Title: st.Job.Title, Positions: []wordDoc{}}
	for i := range st.Tables.Defects {
		doc.Defects = append(doc.Defects, wordOf(st.Tables.Defects[i].Name, st.Tables.Defects[i].Describe))
	}
	for i := range st.Tables.Works {
		doc.Works = append(doc.Works, wordOf(st.Tables.Works[i].Name, st.Tables.Works[i].Describe))
	}
	for i := range st.Tables.Metals {
		doc.Metals = append(doc.Metals, wordOf(st.Tables.Metals[i].Name, st.Tables.Metals[i].Note))
	}
	for i := range st.Slots {
		s := &st.Slots[i]
		d := wordDoc{Word: s.ID, Means: s.Name, Also: []string{}}
		if s.Part != s.ID {
			d.Also = append(d.Also, s.Part)
		}
		doc.Positions = append(doc.Positions, d)
	}
	return doc
}

// TradeWords lists the words of faults, works, metals and positions.
func TradeWords(st *catalog.State) string {
	doc := tradeWords(st)
	text := Paragraph("", "", st.Job.Title+": the words of its files, and what else leads to them, in any capitals")
	for _, part := range []struct {
		head  string
		words []wordDoc
	}{{"Faults (defect):", doc.Defects}, {"Works:", doc.Works}, {"Metals:", doc.Metals},
		{"Slots, and their parts:", doc.Positions}} {
		var all []string
		for _, w := range part.words {
			line := w.Word
			if w.Means != "" && w.Means != w.Word {
				line += ": " + w.Means
			}
			if len(w.Also) > 0 {
				line += " (also: " + strings.Join(w.Also, ", ") + ")"
			}
			all = append(all, line)
		}
		text += "\n" + list(part.head, all)
	}
	return text
}

// TradeWordsJSON writes them as one JSON document.
func TradeWordsJSON(st *catalog.State) (string, error) { return toJSON(tradeWords(st)) }
