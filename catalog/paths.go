package catalog

import (
	"os"
	"path/filepath"
	"strings"
)

// Beside gives the path of a file that is named in another one in the folder dir. A drive's letter, or
// a name that begins at the root, which on Windows is that of the folder's drive, is not looked for in it.
func Beside(dir, name string) string {
	name = filepath.FromSlash(name)
	switch {
	case filepath.IsAbs(name) || filepath.VolumeName(name) != "":
		return name
	case name != "" && os.IsPathSeparator(name[0]):
		if full, err := filepath.Abs(dir); err == nil {
			return filepath.VolumeName(full) + name
		}
	}
	return filepath.Join(dir, name)
}

// beside gives the path of a file named in a document, seen from where the
// user is.
func (d *document) beside(name string) string { return Beside(d.dir, name) }

// SameName says whether two paths are one name in one folder: written alike or, where the folder
// takes capitals and small letters for the same, alike but for those. A link is a name of its own.
func SameName(a, b string) bool {
	x, y := filepath.Base(a), filepath.Base(b)
	if !strings.EqualFold(x, y) || !sameFile(filepath.Dir(a), filepath.Dir(b)) {
		return false
	}
	if x == y {
		return true
	}
	one, err := os.Lstat(a)
	other, err2 := os.Lstat(b)
	return err == nil && err2 == nil && os.SameFile(one, other)
}

// foreign is the hint for a file that can't be read: a path as only Windows knows it is why, elsewhere.
func foreign(path, hint string) string {
	if os.PathSeparator == '/' && strings.Contains(path, `\`) {
		return "write / between folders, which serves on Windows too; a drive's letter serves there alone"
	}
	return hint
}

// JobKey is how the shop's journal calls a job: the path of its file as seen from the
// shop's, wherever the program is started; the whole path where they lie on two drives.
func (s *State) JobKey() string {
	job, err := filepath.Abs(s.Job.File)
	if err != nil {
		return filepath.ToSlash(s.Job.File)
	}
	if shop, err := filepath.Abs(s.Shop.File); err == nil {
		if key, err := filepath.Rel(filepath.Dir(shop), job); err == nil {
			return filepath.ToSlash(key)
		}
	}
	return filepath.ToSlash(job)
}

// isOurs says whether a job that the shop's journal names is this one, under its name, however
// that is written, or under one it had. An entry of this job's journal that the shop's gives to
// another says that the file was moved since, unless the other is still there: then this is a copy.
func (l *loader) isOurs(job string, entryIsOurs bool) bool {
	if job == "" {
		return false
	}
	now, looked := l.ours[job]
	switch {
	case looked:
	case job == l.state.JobKey():
		now = standsOurs
	case l.shop != nil:
		named, own := l.shop.doc.beside(job), l.state.Job.File
		now = l.looks.at(func() string { return standsAt(named, own) })
	default:
		now = standsOther
	}
	if now == standsNone && entryIsOurs {
		now = standsOurs // moved since
	}
	l.ours[job] = now
	return now == standsOurs
}

// What stands where the shop's journal says that a job is.
const (
	standsNone  = ""
	standsOurs  = "this job"
	standsOther = "another one"
)

func standsAt(path, own string) string {
	if SameName(path, own) {
		return standsOurs
	}
	if _, err := os.Stat(path); err != nil {
		return standsNone
	}
	return standsOther
}

// isOpened says whether a file was read, under whatever name for it.
func (l *loader) isOpened(full string) bool {
	if l.opened[full] {
		return true
	}
	for other := range l.opened {
		if SameName(full, other) {
			return true
		}
	}
	return false
}

// instead is the file that is read in place of one that is named.
func (opt Options) instead(path string) string {
	for named, other := range opt.Include {
		if named == path || SameName(named, path) {
			return other
		}
	}
	return path
}
