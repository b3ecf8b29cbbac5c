package record

import (
	"fmt"
	"strconv"
	"strings"

	"brightset/catalog"
)

// value is what was typed as a decoder would give it: a number where it is one.
func value(text string) any {
	text = strings.TrimSpace(text)
	if n, err := strconv.ParseInt(text, 10, 64); err == nil {
		return n
	}
	if f, err := strconv.ParseFloat(text, 64); err == nil && !strings.ContainsAny(text, "eExXnNpP_") {
		return f
	}
	return text
}

func list(text string) []any {
	var out []any
	for _, s := range strings.Split(text, ",") {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// newPiece writes a piece the files don't have. Words and sums stay text, the rest are
// numbers.
func (b *builder) newPiece(f *Facts) error {
	target := []string{"piece", f.Target}
	if len(b.d.Keys(false, target)) > 0 {
		return fmt.Errorf("piece %q is there already; give the new one another name", f.Target)
	}
	b.set(false, target, "fits", list(f.Fits))
	for key, text := range map[string]string{"kind": f.Kind, "metal": f.Metal, "owner": f.Owner, "name": f.Name, "tag": f.Tag, "place": f.Place, "marks": f.Marks, "price": f.Cost, "value": f.Value} {
		b.set(false, target, key, text)
	}
	for key, text := range map[string]string{"quantity": f.Quantity, "grade": f.Grade, "tone": f.Tone, "chance": f.Chance, "days": f.Days} {
		b.set(false, target, key, value(text))
	}
	return nil
}

// findingName is a name for a new finding: the defect's, numbered where that is taken.
func (b *builder) findingName(piece int, defect string) string {
	shop, target := b.of(piece, "finding")
	taken := b.d.Keys(shop, target)
	name := defect
	for n := 2; contains(taken, name); n++ {
		name = fmt.Sprintf("%s %d", defect, n)
	}
	return name
}

func contains(list []string, s string) bool {
	for _, one := range list {
		if one == s {
			return true
		}
	}
	return false
}

func (b *builder) addFinding(i int, f *Facts) {
	shop, target := b.of(i, "finding", b.findingName(i, f.Defect))
	b.set(shop, target, "defect", f.Defect)
	b.set(shop, target, "severity", f.Severity)
	b.set(shop, target, "where", f.Where)
	b.set(shop, target, "extent", value(f.Extent))
	b.set(shop, target, "count", value(f.Count))
}

func (b *builder) found(f *Facts) error {
	i, err := b.here(f.Target)
	if err == nil {
		b.addFinding(i, f)
	}
	return err
}

func (b *builder) cleared(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	shop, all := b.of(i, "finding")
	known := b.d.Keys(shop, all)
	if !contains(known, f.Defect) {
		return fmt.Errorf("%s has no finding %q%s", b.name(i), f.Defect, meant(f.Defect, known))
	}
	shop, target := b.of(i, "finding", f.Defect)
	b.clear(shop, target)
	return nil
}

func (b *builder) graded(f *Facts) error {
	i, err := b.here(f.Target)
	if err == nil {
		b.setPiece(i, "grade", value(f.Grade))
		b.setPiece(i, "tone", value(f.Tone))
	}
	return err
}

// quoted adds a quote of a plater's; one he gave before for the same work and level
// gives way to it.
func (b *builder) quoted(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	if _, err := b.plater(f.To); err != nil {
		return err
	}
	shop, all := b.of(i, "quote")
	name, taken := f.To, b.d.Keys(shop, all)
	for _, id := range taken {
		_, one := b.of(i, "quote", id)
		if b.d.Value(shop, one, "plater") == any(f.To) && text(b.d.Value(shop, one, "level")) == f.Level && text(b.d.Value(shop, one, "work")) == f.Work {
			b.clear(shop, one)
		}
	}
	for n := 2; contains(taken, name); n++ {
		name = fmt.Sprintf("%s %d", f.To, n)
	}
	_, target := b.of(i, "quote", name)
	for key, s := range map[string]string{"plater": f.To, "cost": f.Cost, "level": f.Level, "work": f.Work, "firm": f.Firm} {
		b.set(shop, target, key, s)
	}
	for key, s := range map[string]string{"breakage": f.Breakage, "grade": f.Grade, "days": f.Days} {
		b.set(shop, target, key, value(s))
	}
	b.set(shop, target, "date", b.day(f))
	return nil
}

// day is the day something happened.
func (b *builder) day(f *Facts) string {
	if f.On != "" {
		return f.On
	}
	return b.d.Today()
}

func text(v any) string {
	s, _ := v.(string)
	return s
}

// here finds a piece that is still there.
func (b *builder) here(id string) (int, error) {
	i, err := b.piece(id)
	if err != nil {
		return i, err
	}
	switch p := &b.st.Pieces[i]; {
	case p.Elsewhere:
		return i, fmt.Errorf("%s is in use on another job", b.name(i))
	case p.Gone():
		return i, fmt.Errorf("%s is %s; if that was wrong, type: brightset record undo", b.name(i), p.Stage)
	}
	return i, nil
}

// taken marks a piece of the shop's as in use on this job.
func (b *builder) taken(i int) {
	if b.st.Pieces[i].InShop {
		b.setPiece(i, "job", b.st.JobKey())
	}
}

// count is how many of a bag are meant: all where nothing is said.
func (b *builder) count(i int, f *Facts) (int, error) {
	p := &b.st.Pieces[i]
	if f.Count == "" {
		return p.Quantity, nil
	}
	n, err := strconv.Atoi(f.Count)
	if err != nil || n < 1 || n > p.Quantity {
		return 0, fmt.Errorf("--count %q: %s has %d; write a number from 1 to %d", f.Count, b.name(i), p.Quantity, p.Quantity)
	}
	return n, nil
}

// gone builds the action by which pieces go out of the job's hands.
func gone(stage catalog.Stage) func(*builder, *Facts) error {
	return func(b *builder, f *Facts) error {
		i, err := b.here(f.Target)
		if err != nil {
			return err
		}
		n, err := b.count(i, f)
		if err != nil {
			return err
		}
		p := &b.st.Pieces[i]
		if n < p.Quantity {
			b.setPiece(i, "quantity", int64(p.Quantity-n))
			return nil
		}
		b.setPiece(i, "stage", stage.String())
		if p.Stage == catalog.StageHung {
			b.setPiece(i, "hung_in", nil)
		}
		return nil
	}
}

func (b *builder) fitted(f *Facts) error {
	all, err := b.pieces(f.Target)
	if err != nil {
		return err
	}
	for _, i := range all {
		if _, err := b.here(b.st.Pieces[i].Key()); err != nil {
			return err
		}
		b.setPiece(i, "fitted", true)
	}
	return nil
}
