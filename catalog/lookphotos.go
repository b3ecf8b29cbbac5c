package catalog

import (
	"fmt"
	"os"
	"path/filepath"
)

// lookForPhotos warns of photos that are not there: pages leave them out.
func (l *loader) lookForPhotos(t *table, p *Piece) {
	for i, name := range p.Photos {
		path := filepath.Join(filepath.Dir(l.state.Job.File), filepath.FromSlash(name))
		if info, err := os.Stat(path); name == "" || err == nil && info.Mode().IsRegular() {
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

// filesIn are the names in a folder.
func filesIn(dir string) (names []string) {
	list, _ := os.ReadDir(dir)
	for _, one := range list {
		names = append(names, one.Name())
	}
	return names
}
