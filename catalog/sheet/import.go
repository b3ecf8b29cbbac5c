package sheet

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"brightset/catalog"
	"brightset/catalog/disk"
)

// Imported is the outcome of an import.
type Imported struct {
	Path     string // of the file written
	Rows     int
	Included bool     // the job includes it already
	Include  []string // what the job has to include for it, the new file last
	Warnings []Problem
}

// Import reads a CSV file and puts a TOML file beside the job, in one step: it is
// written under another name, loaded together with the job, and only then given
// its name. A file of that name is replaced only if replace is set and import
// made it. Problems of the table come as Problems; the job's own mistakes as
// *catalog.Mistakes.
func Import(job string, w What, csvPath, out string, how Reading, replace bool) (*Imported, error) {
	data, err := readFile(csvPath)
	if err != nil {
		return nil, err
	}
	out = besideJob(job, out)
	if err := mayWrite(out, replace); err != nil {
		return nil, err
	}
	t, toml, problems := apart(data, w, filepath.Base(csvPath), how)
	if t == nil {
		return nil, Problems(problems)
	}
	done := &Imported{Path: out, Rows: len(t.rows), Warnings: t.warnings()}
	if err := done.put(job, toml, problems, replace); err != nil {
		t.locate(problemsOf(err))
		t.suspect(problemsOf(err))
		return nil, err
	}
	t.locate(done.Warnings)
	return done, nil
}

// apart reads a table and turns it into TOML. The table is nil where there is no use going on.
func apart(data []byte, w What, name string, how Reading) (*table, *writer, []Problem) {
	t, problems := read(data, w, how)
	if t == nil {
		return nil, nil, problems
	}
	if how.Off && (w == Pieces || w == Leads) {
		t.cameOff()
	}
	problems = append(problems, t.doubles()...)
	toml, more := toTOML(t, w, name)
	problems = append(problems, more...)
	if len(t.rows) == 0 && len(problems) == 0 {
		return nil, nil, []Problem{{Message: "there are no rows below the head"}}
	}
	return t, toml, problems
}

// problemsOf gives the problems that an error holds.
func problemsOf(err error) Problems {
	var p Problems
	errors.As(err, &p)
	return p
}

func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("no table at %q; check the name and the folder you are in", path)
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%q is no file with a table; name a CSV file", path)
	case info.Size() > MostBytes:
		return nil, Problems{*tooLarge()}
	}
	f, err := disk.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, MostBytes+1))
	if err == nil && len(data) > MostBytes {
		return nil, Problems{*tooLarge()}
	}
	return data, err
}

// besideJob writes the path of a file the way the catalog would find it when a
// job includes it, where it can be told.
func besideJob(job, path string) string {
	folder, err := filepath.Abs(filepath.Dir(job))
	full, err2 := filepath.Abs(path)
	if err != nil || err2 != nil {
		return path
	}
	name, err := filepath.Rel(folder, full)
	if err != nil {
		return path
	}
	return filepath.Join(filepath.Dir(job), name)
}

// put checks the new file together with the job and puts it in place.
func (done *Imported) put(job string, toml *writer, problems []Problem, replace bool) error {
	tmp, err := writeBeside(done.Path, toml.b.String())
	if err != nil {
		return err
	}
	defer tmp.Discard()
	warnings, err := check(job, tmp.Path, done.Path, toml, &problems)
	if err != nil {
		return err
	}
	if len(problems) > 0 {
		return Problems(problems)
	}
	done.Warnings = append(done.Warnings, warnings...)
	done.lookUp(job)
	return moveTo(tmp, done.Path, replace)
}

// lookUp finds out whether the job includes the file, and what to write if not.
func (done *Imported) lookUp(job string) {
	done.Include = catalog.Includes(job)
	for _, name := range done.Include {
		path := catalog.Beside(filepath.Dir(job), name)
		if besideJob(job, path) == done.Path || catalog.SameName(path, done.Path) {
			done.Included = true
			return
		}
	}
	name, err := filepath.Rel(filepath.Dir(job), done.Path)
	if err != nil {
		name = done.Path
	}
	done.Include = append(done.Include, filepath.ToSlash(name))
}

const turnedHint = "a spreadsheet makes that of an id such as 1-2 or 3E5; if so, write it again with an apostrophe " +
	"before it, '1-2"

// suspect says of names that nobody knows that a spreadsheet may have made them.
func (t *table) suspect(problems []Problem) {
	for i := range problems {
		p := &problems[i]
		at, ok := slices.BinarySearchFunc(t.rows, p.Row, func(r row, n int) int { return r.number - n })
		if ok && (p.Column == "piece" || p.Column == "fits") && turned.MatchString(t.rows[at].cells[p.Column]) {
			p.Hint = turnedHint
		}
	}
}

// warnings points at ids that a spreadsheet seems to have changed.
func (t *table) warnings() (out []Problem) {
	for _, r := range t.rows {
		for _, c := range []string{"piece", "id"} {
			if turned.MatchString(r.cells[c]) {
				out = append(out, Problem{Row: r.number, Column: c, Message: shown(r.cells[c]) +
					" looks like what a spreadsheet makes of an id such as 1-2 or 3E5",
					Hint: "if so, write it again with an apostrophe before it, '1-2"})
			}
		}
	}
	return out
}
