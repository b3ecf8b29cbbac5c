package plan

import (
	"fmt"

	"brightset/catalog"
)

// BundleText names what is bought of a bundle for so much, or that much more or less of it:
// "bundle crate", "2 boxes of screws, 50 in each".
func BundleText(b *catalog.Bundle, cents catalog.Cents) string {
	switch cents = max(cents, -cents); {
	case b.Box == 0:
		return "bundle " + b.ID
	case b.Price == 0:
		return fmt.Sprintf("boxes of %s, %d in each", b.ID, b.Box)
	case cents == b.Price:
		return fmt.Sprintf("a box of %d of %s", b.Box, b.ID)
	}
	return fmt.Sprintf("%d boxes of %s, %d in each", cents/b.Price, b.ID, b.Box)
}
