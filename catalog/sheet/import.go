package sheet

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"brightset/catalog"
)

// Imported is the outcome of an import.
type Imported struct {
	Path     string // of the file written
	Rows     int
	Included bool // the job includes it already
	Warnings []Problem
}

// Problems are what stands in the way of an import; nothing was written.
type Problems []Problem

func (p Problems) Error() string { return fmt.Sprintf("%d problems in the table", len(p)) }

// Import reads a CSV file and puts a TOML file beside the job, in one step: it is
// written under another name, loaded together with the job, and only then given
// its name. A file of that name is replaced only if replace is set. Problems of
// the table come as Problems; the job's own mistakes as *catalog.Mistakes.
func Import(job string, w What, csvPath, out string, how Reading, replace bool) (*Imported, error) {
	info, err := os.Stat(csvPath)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a regular file; name a CSV file", csvPath)
	}
	data, err := os.ReadFile(csvPath)
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(out); err == nil && !replace {
		return nil, fmt.Errorf("%s is there already; add --replace to write it anew", out)
	}
	t, problems := read(data, w, how)
	if t == nil {
		return nil, Problems(problems)
	}
	problems = append(problems, doubles(t, w)...)
	good := t.drop(problems)
	toml, more := toTOML(good, w, filepath.Base(csvPath))
	problems = append(problems, more...)
	if len(good.rows) == 0 && len(problems) == 0 {
		return nil, Problems{{Message: "there are no rows below the head"}}
	}
	return put(job, toml, out, len(t.rows), problems, warnings(t))
}

// put checks the new file together with the job and puts it in place.
func put(job string, toml *writer, out string, rows int, problems []Problem, warn []Problem) (*Imported, error) {
	tmp, err := os.CreateTemp(filepath.Dir(out), ".brightset-*.toml")
	if err != nil {
		return nil, err
	}
	defer os.Remove(tmp.Name())
	_, err = tmp.WriteString(toml.b.String())
	err = errors.Join(err, tmp.Chmod(0o644), tmp.Sync(), tmp.Close())
	if err != nil {
		return nil, err
	}
	included, err := check(job, tmp.Name(), out, toml, &problems)
	if err != nil {
		return nil, err
	}
	if len(problems) > 0 {
		slices.SortStableFunc(problems, func(a, b Problem) int { return a.Row - b.Row })
		return nil, Problems(problems)
	}
	if err := os.Rename(tmp.Name(), out); err != nil {
		return nil, err
	}
	return &Imported{Path: out, Rows: rows, Included: included, Warnings: warn}, nil
}

// check loads the job with the new file in place of the one it may replace.
func check(job, tmp, out string, toml *writer, problems *[]Problem) (included bool, err error) {
	_, err = catalog.Load(job, catalog.Options{Include: map[string]string{out: tmp}})
	var m *catalog.Mistakes
	if err == nil {
		return catalog.Includes(job, out), nil
	}
	if !errors.As(err, &m) {
		return false, err
	}
	own := &catalog.Mistakes{}
	for _, one := range m.List {
		if one.File != tmp {
			own.List = append(own.List, one)
			continue
		}
		p := Problem{Message: one.Message, Hint: one.Hint}
		if one.Line > 0 && one.Line <= len(toml.places) {
			at := toml.places[one.Line-1]
			p.Row, p.Column = at.row, at.column
		}
		*problems = append(*problems, plain(p))
	}
	if len(*problems) == 0 && len(own.List) > 0 {
		return false, own
	}
	return false, nil
}

var assignment = regexp.MustCompile(`\b[a-z_]+ = `)

// plain turns words about a TOML file into words about a cell.
func plain(p Problem) Problem {
	p.Message = strings.TrimPrefix(p.Message, p.Column+": ")
	p.Hint = assignment.ReplaceAllString(p.Hint, "")
	for _, s := range []string{", without quotes and time", ", without quotes", ", in quotes"} {
		p.Hint = strings.TrimSuffix(p.Hint, s)
	}
	return p
}

// warnings points at ids that a spreadsheet seems to have changed.
func warnings(t *table) (out []Problem) {
	for _, r := range t.rows {
		for _, c := range []string{"piece", "id"} {
			if turned.MatchString(r.cells[c]) {
				out = append(out, Problem{Row: r.number, Column: c, Message: fmt.Sprintf("%q looks like a date or number a spreadsheet has made of a name", r.cells[c]), Hint: "put an apostrophe before the name in the spreadsheet"})
			}
		}
	}
	return out
}
