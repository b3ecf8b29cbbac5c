package catalog

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// lookForPhotos warns of photos that are not there: pages leave them out.
func (l *loader) lookForPhotos(t *table, p *Piece) {
	for i, name := range p.Photos {
		if name == "" {
			continue
		}
		path := filepath.Join(filepath.Dir(l.state.Job.File), filepath.FromSlash(name))
		if l.looks.at(func() string { return inPlaceOf(path) }) == "" {
			continue
		}
		text := fmt.Sprintf("the photo %q of %s is not there, and no page shows it; photos are named as seen from the "+
			"job's file", clip(name), t.what)
		if best := Closest(filepath.Base(path), filesIn(filepath.Dir(path))); best != "" {
			text += fmt.Sprintf(": did you mean %q?", best)
		}
		l.warn(t.origin(t.itemPlace("photos", i)), text)
	}
}

// inPlaceOf is "" where a photo is there, else what is in its folder, where it was looked for.
func inPlaceOf(path string) string {
	if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
		return ""
	}
	return "not " + strings.Join(filesIn(filepath.Dir(path)), "/")
}

// filesIn are the names in a folder.
func filesIn(dir string) (names []string) {
	list, _ := os.ReadDir(dir)
	for _, one := range list {
		names = append(names, one.Name())
	}
	return names
}
