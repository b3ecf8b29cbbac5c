package catalog

import (
	"os"
	"path/filepath"
)

// SameShop says whether two jobs name the same shop's file, by whatever path.
func SameShop(a, b *State) bool {
	return a.Shop.File != "" && b.Shop.File != "" && sameFile(a.Shop.File, b.Shop.File)
}

// SameRecord says whether what two jobs of the same shop record of its pieces goes to one
// journal. A link to the shop's file has a journal of its own beside it.
func SameRecord(a, b *State) bool {
	return SameName(a.Shop.File, b.Shop.File)
}

// SameJob says whether two states are of the same job's file.
func SameJob(a, b *State) bool { return sameFile(a.Job.File, b.Job.File) }

func sameFile(a, b string) bool {
	if x, err := filepath.Abs(a); err == nil {
		if y, err := filepath.Abs(b); err == nil && x == y {
			return true
		}
	}
	x, err := os.Stat(a)
	if err != nil {
		return false
	}
	y, err := os.Stat(b)
	return err == nil && os.SameFile(x, y)
}
