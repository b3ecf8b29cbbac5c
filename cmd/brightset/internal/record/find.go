package record

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/plan"
)

// piece finds the piece that is meant.
func (b *builder) piece(id string) (int, error) {
	id = strings.TrimSpace(id)
	if i, ok := b.st.FindPiece(id); ok {
		return i, nil
	}
	return 0, fmt.Errorf("no piece is called %q%s", id, b.like(id))
}

// like is which piece may have been meant.
func (b *builder) like(id string) string {
	var names []string
	for i := range b.st.Pieces {
		names = append(names, b.st.PieceLabel(i))
	}
	return meant(id, names)
}

// pieces finds several, with commas between.
func (b *builder) pieces(ids string) ([]int, error) {
	if i, ok := b.st.FindPiece(ids); ok { // a name may have a comma in it
		return []int{i}, nil
	}
	var all []int
	seen := map[int]bool{}
	for _, id := range strings.Split(ids, ",") {
		if strings.TrimSpace(id) == "" {
			return nil, fmt.Errorf("%q has a comma too many; write it like crest-1,crest-2", ids)
		}
		i, err := b.piece(id)
		if err != nil {
			return nil, err
		}
		if seen[i] {
			return nil, fmt.Errorf("piece %q stands there twice; leave one of the two out", strings.TrimSpace(id))
		}
		seen[i] = true
		all = append(all, i)
	}
	return all, nil
}

// here finds a piece that is still there.
func (b *builder) here(id string) (int, error) {
	i, err := b.piece(id)
	if err == nil {
		err = b.there(i)
	}
	return i, err
}

// there says why nothing can be recorded of a piece any more.
func (b *builder) there(i int) error {
	switch p := &b.st.Pieces[i]; {
	case p.Elsewhere:
		_, target := b.of(i)
		rest := ""
		if left := b.restOf(i); left != catalog.None {
			rest = fmt.Sprintf("; what is left of the bag is called %s", b.name(left))
		}
		return fmt.Errorf("%s is in use on another job, %s%s", b.name(i), text(b.d.Value(true, target, event.KeyJob)), rest)
	case p.Gone():
		return fmt.Errorf("%s is %s; if that was wrong, type: brightset record undo", b.name(i), p.Stage)
	}
	return nil
}

// allHere finds several that are all there.
func (b *builder) allHere(ids string) ([]int, error) {
	all, err := b.pieces(ids)
	for _, i := range all {
		if err == nil {
			err = b.there(i)
		}
	}
	return all, err
}

// slot finds the slot that is meant.
func (b *builder) slot(id string) (int, error) {
	var names []string
	for i := range b.st.Slots {
		if b.st.Slots[i].ID == id {
			return i, nil
		}
		names = append(names, b.st.Slots[i].ID)
	}
	return 0, fmt.Errorf("no slot is called %q%s", id, meant(id, names))
}

// plater finds the plater that is meant.
func (b *builder) plater(id string) (int, error) {
	var names []string
	for i := range b.st.Platers {
		if b.st.Platers[i].ID == id {
			return i, nil
		}
		names = append(names, b.st.Platers[i].ID)
	}
	return 0, fmt.Errorf("no plater is called %q%s", id, meant(id, names))
}

// name is how the piece is called in messages.
func (b *builder) name(i int) string { return plan.PieceName(b.st, i) }

// typed is how the piece is typed in a command.
func (b *builder) typed(i int) string { return InShell(b.name(i)) }

// InShell puts what a shell would take apart in quotes.
func InShell(name string) string {
	if strings.ContainsAny(name, " \t\"'$&|;<>()*?#~`\\") {
		return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
	}
	return name
}

// meant is what may have been meant by a name.
func meant(name string, known []string) string {
	if like := catalog.Closest(name, known); like != "" {
		return fmt.Sprintf("; did you mean %q?", like)
	}
	if len(known) == 0 {
		return "; there is none"
	}
	return "; there are " + strings.Join(known[:min(12, len(known))], ", ")
}
