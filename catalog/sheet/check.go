package sheet

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"brightset/catalog"
)

// check loads the job with the new file in place of the one it may replace.
// Mistakes in the new file become problems of the cells they came from. Those in
// the job's own files are an error, but only where nothing is wrong with the
// table, since that may be their reason.
func check(job, tmp, out string, toml *writer, problems *[]Problem) (warnings []Problem, err error) {
	st, err := catalog.Load(job, catalog.Options{Include: map[string]string{out: tmp}})
	if err == nil {
		return toml.warnings(st, tmp), nil
	}
	var m *catalog.Mistakes
	if !errors.As(err, &m) {
		return nil, err
	}
	known := len(*problems) > 0
	own := &catalog.Mistakes{}
	for _, one := range m.List {
		if one.File != tmp {
			one.Message = strings.ReplaceAll(one.Message, tmp, out)
			own.List = append(own.List, one)
			continue
		}
		p, at := toml.problem(one.Line, one.Message, one.Hint)
		if known && at.cell == "" && emptyCell.MatchString(p.Message) {
			continue // an empty cell or a missing column, reported as such
		}
		*problems = append(*problems, p)
	}
	if len(*problems) == 0 && len(own.List) > 0 {
		return nil, own
	}
	return nil, nil
}

// warnings are those of the catalog about the new file, and pieces the shop's
// file has too: they are two pieces then.
func (w *writer) warnings(st *catalog.State, tmp string) (out []Problem) {
	for _, one := range st.Warnings {
		if one.From.File == tmp {
			p, _ := w.problem(one.From.Line, one.Message, "")
			out = append(out, p)
		}
	}
	inShop := map[string]catalog.Origin{}
	for i := range st.Pieces {
		if p := &st.Pieces[i]; p.InShop {
			inShop[p.ID] = p.From
		}
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if from, again := inShop[p.ID]; again && !p.InShop && p.From.File == tmp {
			one, _ := w.problem(p.From.Line, fmt.Sprintf("%s has a piece %s too; the two count as two pieces", from,
				shown(p.ID)), "if they are one, leave it out of one of the files")
			out = append(out, one)
		}
	}
	return out
}

// problem turns a mistake on a line of the TOML into one of a cell.
func (w *writer) problem(line int, message, hint string) (Problem, place) {
	p := Problem{Message: message, Hint: hint}
	if line < 1 || line > len(w.places) {
		return p, place{}
	}
	at := w.places[line-1]
	p.Row, p.Column = at.row, at.column
	if p.Column == "piece" && (strings.HasPrefix(message, "finding ") || strings.HasPrefix(message, "quote ")) {
		p.Column = "id"
	}
	p.Message = strings.TrimPrefix(p.Message, p.Column+": ")
	if at.cell != "" && strings.HasPrefix(p.Message, "this has to be ") {
		p.Message = shown(at.cell) + strings.TrimPrefix(p.Message, "this")
	}
	if p.Column == "id" && strings.Contains(message, "is written twice, first in ") {
		p.Hint = "take it out of that file, or give one of the two another name"
	}
	p.Hint = assignment.ReplaceAllString(p.Hint, "")
	for _, s := range []string{", without quotes and time", ", without quotes", ", in quotes"} {
		p.Hint = strings.TrimSuffix(p.Hint, s)
	}
	return p, at
}

var emptyCell = regexp.MustCompile(` has no (fits|kind|metal|defect|plater|cost)$`)

// assignment is the beginning of a line of TOML, which is of no use to somebody
// who fills in cells.
var assignment = regexp.MustCompile(`\b[a-z_]+ = `)
