package catalog

import (
	"fmt"
	"slices"
	"strings"
)

// names is a register of the ids of one kind and their indices.
type names struct {
	kind  string
	index map[string]int
	order []string
	first []Origin

	doubled []int // those written twice, which is reported
	builtIn int   // how many of them are starting values
}

func newNames(kind string) *names { return &names{kind: kind, index: map[string]int{}} }

// ofTrade are the kinds of names that are words of the trade: people write them with any
// capitals. The names of slots, pieces, platers and so on are the user's own.
var ofTrade = []string{"metal", "defect", "work", "target", "grade", "tone", "level"}

// find gives the index of a name; of a word of the trade with any capitals.
func (n *names) find(id string) (int, bool) {
	if i, known := n.index[id]; known || !slices.Contains(ofTrade, n.kind) {
		return i, known
	}
	i := slices.IndexFunc(n.order, func(one string) bool { return strings.EqualFold(one, id) })
	return max(i, 0), i >= 0
}

// add registers the id of a table and gives its index; false where the id is
// taken, which is then a mistake unless the table may be written again.
func (n *names) add(id string, at Origin) (int, bool) {
	if i, taken := n.find(id); taken {
		return i, false
	}
	i := len(n.order)
	n.index[id] = i
	n.order = append(n.order, id)
	n.first = append(n.first, at)
	return i, true
}

// addOnce registers the id of a table; a second one in another file is a
// mistake.
func (n *names) addOnce(t *table) bool {
	i, fresh := n.add(t.id, t.here())
	if !fresh {
		t.wrongHere(fmt.Sprintf("%s is written twice, first in %s", t.what, n.first[i]), "give one of the two another name")
		if t.here().Source == Recorded { // by another job of the shop, as a rule
			t.l.list[len(t.l.list)-1].Hint = fmt.Sprintf("give the one at %s another name, or take the other one back in "+
				"the job that recorded it: brightset record undo", n.first[i])
		}
		n.doubled = append(n.doubled, i)
	}
	return fresh
}

// unknown gives the message and the hint for an id that isn't there.
func (l *loader) unknown(n *names, id string) (message, hint string) {
	otherwise := ""
	switch {
	case n.kind == "owner":
		otherwise = fmt.Sprintf(`write "customer", "shop" or a vendor's id, with a table [vendor.%s]`, keyText(clip(id)))
	case len(n.order) == 0:
		otherwise = fmt.Sprintf("write a table [%s.%s]", n.kind, keyText(clip(id)))
	}
	if l.state.Shop.File == "" && otherwise != "" {
		otherwise += `, or name the shop's file below [job]: shop = "shop.toml"`
	}
	return fmt.Sprintf("unknown %s %q", n.kind, clip(id)), l.meant(id, n.order, otherwise)
}

// meant looks for the word that was meant, until there are so many mistakes
// that nobody reads the hints: comparing words takes its time.
func (l *loader) meant(given string, words []string, otherwise string) string {
	if len(l.list) > 5*maxShown {
		return otherwise
	}
	return meant(given, words, otherwise)
}

// ref reads the id of one thing; None where there is none or it is unknown.
func (t *table) ref(key string, n *names) int {
	if !t.has(key) {
		return None
	}
	before := len(t.l.list)
	id := t.exactly(key)
	if len(t.l.list) > before {
		return None
	}
	if i, ok := n.find(id); ok {
		return i
	}
	if !t.l.excused(n, id) {
		message, hint := t.l.unknown(n, id)
		t.wrong(key, message, hint)
	}
	return None
}

// refs reads a list of ids. Unknown ones and those written twice are reported
// and left out. Of a key that isn't there the list is nil, of an empty list not.
func (t *table) refs(key string, n *names) []int {
	if !t.has(key) {
		return nil
	}
	out := []int{}
	seen := map[int]bool{}
	for i, id := range t.texts(key) {
		at, ok := n.find(id)
		switch {
		case !ok && id != "" && !t.l.excused(n, id):
			message, hint := t.l.unknown(n, id)
			t.wrongItem(key, i, message, hint)
		case ok && seen[at]:
			t.wrongItem(key, i, fmt.Sprintf("%q stands here twice", id), "leave one of the two out")
		case ok:
			seen[at] = true
			out = append(out, at)
		}
	}
	return out
}

// excused says whether an unknown id may well be known in a file that couldn't
// be read, or stands where a table was meant; saying so would only bury the
// real mistake.
func (l *loader) excused(n *names, id string) bool {
	return l.partial && n.kind != "slot" || l.spoilt[join(n.kind, id)]
}
