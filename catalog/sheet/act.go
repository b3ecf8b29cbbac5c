package sheet

import (
	"fmt"
	"path/filepath"

	"brightset/catalog"
	"brightset/catalog/event"
)

// Act makes of a CSV file, whose name is given for what it is called, what can be recorded: the same that Import
// would write to a file of its own, checked in the same way. Problems of the table come as Problems; the
// job's own mistakes as *catalog.Mistakes. What is there already is never changed by a table.
func Act(d *catalog.Recorder, w What, name string, data []byte, how Reading) (catalog.Act, []Problem, error) {
	if len(data) > MostBytes {
		return catalog.Act{}, nil, Problems{*tooLarge()}
	}
	t, toml, problems := apart(data, w, name, how)
	if len(problems) > 0 && t == nil {
		return catalog.Act{}, nil, Problems(problems)
	}
	job := d.State.Job.File
	tmp, err := writeBeside(filepath.Join(filepath.Dir(job), "table.toml"), toml.b.String())
	if err != nil {
		return catalog.Act{}, nil, err
	}
	defer tmp.Discard()
	warnings, err := check(job, tmp.Path, tmp.Path, toml, &problems)
	if err != nil {
		return catalog.Act{}, nil, err
	}
	act := catalog.Act{Action: event.Imported}
	if len(problems) == 0 {
		if act.Sets, err = catalog.SetsOf(toml.b.String()); err != nil {
			return act, nil, err
		}
		problems = t.there(d, w, act.Sets)
	}
	if len(problems) > 0 {
		t.locate(problems)
		t.suspect(problems)
		return act, nil, Problems(problems)
	}
	warnings = append(t.warnings(), warnings...)
	t.locate(warnings)
	act.Reason = fmt.Sprintf("%s from %s", countOf(len(t.rows), w), name)
	return act, warnings, nil
}

// there are the tables that were recorded already: a file that has them was found out about before.
func (t *table) there(d *catalog.Recorder, w What, sets []catalog.Set) (problems []Problem) {
	if w == Prices {
		return nil // they stand below a plater, each under a key of its own
	}
	seen := map[string]bool{}
	for _, s := range sets {
		name := fmt.Sprintf("%q", s.Target)
		if seen[name] || len(d.Keys(false, s.Target)) == 0 {
			continue
		}
		seen[name] = true
		p := Problem{Column: "id", Message: fmt.Sprintf("%s is there already", shown(s.Target[len(s.Target)-1])),
			Hint: "leave its row out, or give it another name"}
		for _, r := range t.rows {
			if r.cells["id"] == s.Target[len(s.Target)-1] {
				p.Row = r.number
			}
		}
		problems = append(problems, p)
	}
	return problems
}

func countOf(n int, w What) string {
	if n == 1 {
		return fmt.Sprintf("1 row of %s", w)
	}
	return fmt.Sprintf("%d rows of %s", n, w)
}
