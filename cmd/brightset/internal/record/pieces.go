package record

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"brightset/catalog/event"
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

// meantBy says whether a word of the trade is what was typed, with any capitals; where nothing
// was typed any is meant.
func meantBy(typed, word string) bool { return typed == "" || strings.EqualFold(typed, word) }

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
	target := event.Of(event.TablePiece, f.Target)
	if _, taken := b.st.FindPiece(f.Target); taken || len(b.d.Keys(false, target)) > 0 {
		return fmt.Errorf("piece %q is there already; give the new one another name", f.Target)
	}
	if strings.Contains(f.Target, ",") {
		return fmt.Errorf("piece %q has a comma in its name, which stands between pieces; give it another name", f.Target)
	}
	if f.Cost != "" && meantBy(f.Owner, "customer") {
		return fmt.Errorf("--cost is what a vendor or the shop asks for it; say whose it is: --owner VENDOR")
	}
	if f.Bundle != "" && f.Owner != "" && meantBy(f.Owner, "customer") { // it is whoever's the bundle is
		f.Owner = ""
	}
	b.set(false, target, event.KeyFits, list(f.Fits))
	for key, text := range map[event.Key]string{event.KeyKind: f.Kind, event.KeyMetal: f.Metal, event.KeyOwner: f.Owner,
		event.KeyName: f.Name, event.KeyTag: f.Tag, event.KeyPlace: f.Place, event.KeyMarks: f.Marks, event.KeyPrice: f.Cost,
		event.KeyValue: f.Value, event.KeyBundle: f.Bundle} {
		b.set(false, target, key, text)
	}
	for key, text := range map[event.Key]string{event.KeyQuantity: f.Quantity, event.KeyBox: f.Box,
		event.KeyGrade: f.Grade, event.KeyTone: f.Tone, event.KeyChance: f.Chance, event.KeyDays: f.Days} {
		b.set(false, target, key, value(text))
	}
	return nil
}

// free is a name that is not taken yet: the given one, shortened if it is too long for
// one, and with a number where it is taken.
func free(name string, taken []string) string {
	const most = 90 // characters; the catalog takes 100
	if r := []rune(name); len(r) > most {
		name = strings.TrimSpace(string(r[:most]))
	}
	one := name
	for n := 2; slices.Contains(taken, one); n++ {
		one = fmt.Sprintf("%s %d", name, n)
	}
	return one
}

// addFinding writes a fault. What is found on a piece that is at a plater's, or has its old
// plating off, was not known when prices were named for it: they keep what they were named
// for.
func (b *builder) addFinding(i int, f *Facts) {
	if p := &b.st.Pieces[i]; p.AtPlater() || p.Bare() || b.deed.Action == event.Stripped {
		b.namedBefore(i)
	}
	shop, all := b.below(i, event.TableFinding)
	taken := slices.Concat(b.d.Keys(shop, all), b.st.Pieces[i].Sent.Known.V)
	for _, q := range b.st.Pieces[i].Quotes {
		taken = append(taken, q.Known.V...) // one of that name was cleared
	}
	_, target := b.below(i, event.TableFinding, free(f.Defect, taken))
	b.set(shop, target, event.KeyDefect, f.Defect)
	b.set(shop, target, event.KeySeverity, f.Severity)
	b.set(shop, target, event.KeyWhere, f.Where)
	b.set(shop, target, event.KeyExtent, value(f.Extent))
	b.set(shop, target, event.KeyCount, value(f.Count))
	if f.Harmless {
		b.set(shop, target, event.KeyHarmless, true)
	}
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
	shop, all := b.below(i, event.TableFinding)
	known := b.d.Keys(shop, all)
	if !slices.Contains(known, f.Defect) {
		return fmt.Errorf("%s has no finding %q%s", b.name(i), f.Defect, meant(f.Defect, known))
	}
	shop, target := b.below(i, event.TableFinding, f.Defect)
	b.clear(shop, target)
	return nil
}

func (b *builder) graded(f *Facts) error {
	i, err := b.here(f.Target)
	if err == nil {
		b.setPiece(i, event.KeyGrade, value(f.Grade))
		b.setPiece(i, event.KeyTone, value(f.Tone))
	}
	return err
}

// quoted writes what a plater asks. Where he has asked something for it before, that
// gives way to it.
func (b *builder) quoted(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	if _, err := b.plater(f.To); err != nil {
		return err
	}
	shop, all := b.below(i, event.TableQuote)
	name, err := b.earlierQuote(i, f)
	if err != nil {
		return err
	}
	if name == "" {
		name = free(f.To, b.d.Keys(shop, all))
	}
	_, target := b.below(i, event.TableQuote, name)
	// it is named for the piece as it is now
	for _, key := range []event.Key{event.KeyLow, event.KeyHigh, event.KeyKnown} {
		b.set(shop, target, key, nil)
	}
	for key, s := range map[event.Key]string{event.KeyPlater: f.To, event.KeyCost: f.Cost, event.KeyLevel: f.Level,
		event.KeyWork: f.Work, event.KeyFirm: f.Firm} {
		b.set(shop, target, key, s)
	}
	for key, s := range map[event.Key]string{event.KeyBreakage: f.Breakage, event.KeyGrade: f.Grade,
		event.KeyDays: f.Days} {
		b.set(shop, target, key, value(s))
	}
	b.set(shop, target, event.KeyDate, b.day(f))
	return nil
}

// earlierQuote is the quote of the same plater that a new one takes the place of: for the
// same work and level, as far as they are named; "" where there is none.
func (b *builder) earlierQuote(i int, f *Facts) (string, error) {
	shop, all := b.below(i, event.TableQuote)
	var like []string
	var ways []string
	for _, id := range b.d.Keys(shop, all) {
		_, one := b.below(i, event.TableQuote, id)
		work, level := text(b.d.Value(shop, one, event.KeyWork)), text(b.d.Value(shop, one, event.KeyLevel))
		if text(b.d.Value(shop, one, event.KeyPlater)) != f.To {
			continue
		}
		if strings.EqualFold(work, f.Work) && strings.EqualFold(level, f.Level) {
			return id, nil
		}
		if (work == "" || meantBy(f.Work, work)) && (level == "" || meantBy(f.Level, level)) {
			like = append(like, id)
			ways = append(ways, flags("work", work, "level", level))
		}
	}
	switch len(like) {
	case 0:
		return "", nil
	case 1:
		return like[0], nil
	}
	return "", fmt.Errorf("%s has named more than one price for %s; say which this is: %s", f.To, b.name(i),
		strings.Join(ways, ", or "))
}

// flags writes flags with their values, those that have one.
func flags(pairs ...string) string {
	var out []string
	for i := 0; i < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			out = append(out, "--"+pairs[i]+" "+InShell(pairs[i+1]))
		}
	}
	return strings.Join(out, " ")
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

// taken marks a piece of the shop's as in use on this job.
func (b *builder) taken(i int) {
	if b.st.Pieces[i].InShop {
		b.setPiece(i, event.KeyJob, b.st.JobKey())
	}
}
