package record

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/catalog/event"
)

// position writes a position of the set: one that the files don't have, or what is different about
// one they have.
func (b *builder) position(f *Facts) error {
	target := event.Of(event.TableSlot, f.Target)
	for key, text := range map[event.Key]string{event.KeyName: f.Name, event.KeyPart: f.Part, event.KeyArea: f.Area,
		event.KeyTarget: f.Goal} {
		b.set(false, target, key, text)
	}
	for key, text := range map[event.Key]string{event.KeyWeight: f.Weight, event.KeyQuantity: f.Quantity,
		event.KeyFloor: f.Floor} {
		b.set(false, target, key, value(text))
	}
	known := slices.ContainsFunc(b.st.Slots, func(s catalog.Slot) bool { return s.ID == f.Target })
	if len(b.deed.Sets) == 0 && !known { // a table without keys is no table: its name is one
		b.set(false, target, event.KeyName, f.Target)
	}
	if f.With == "" {
		return nil
	}
	return b.seenWith(f.Target, f.With)
}

// seenWith puts a position into the match group of another one, which is begun if it has none.
func (b *builder) seenWith(slot, with string) error {
	other := slices.IndexFunc(b.st.Slots, func(s catalog.Slot) bool { return s.ID == with })
	if other < 0 || slot == with {
		return fmt.Errorf("--with %q: no other slot is called that%s", with, meant(with, slotNames(b.st)))
	}
	for i := range b.st.Matches {
		m := &b.st.Matches[i]
		if !slices.Contains(m.Slots, other) {
			continue
		}
		all := []any{}
		for _, s := range m.Slots {
			if b.st.Slots[s].ID == slot {
				return nil
			}
			all = append(all, b.st.Slots[s].ID)
		}
		b.set(false, event.Of(event.TableMatch, m.ID), event.KeySlots, append(all, slot))
		return nil
	}
	target := event.Of(event.TableMatch, free(with, b.d.Keys(false, event.Of(event.TableMatch))))
	b.set(false, target, event.KeySlots, []any{with, slot})
	b.set(false, target, event.KeySamePlater, true)
	return nil
}

func slotNames(st *catalog.State) (names []string) {
	for i := range st.Slots {
		names = append(names, st.Slots[i].ID)
	}
	return names
}

// platerTerms writes a plater: in the shop's journal where there is a shop, since he serves all
// its jobs, unless he stands in the job's own file.
func (b *builder) platerTerms(f *Facts) error {
	target := event.Of(event.TablePlater, f.Target)
	shop := b.st.Shop.File != "" && (len(b.d.Keys(true, target)) > 0 || len(b.d.Keys(false, target)) == 0)
	for key, text := range map[event.Key]string{event.KeyName: f.Name, event.KeyMinimum: f.Minimum,
		event.KeyFreight: f.Freight, event.KeyHourly: f.Hourly, event.KeyLeast: f.Least, event.KeyStripFee: f.StripFee} {
		b.set(shop, target, key, text)
	}
	b.set(shop, target, event.KeyDays, value(f.Days))
	if f.Level == "" {
		if f.Metal+f.Rate+f.Grade+f.Tone != "" {
			return fmt.Errorf("--metal, --rate, --grade and --tone are of one level of his work; say which: --level show")
		}
		known := slices.ContainsFunc(b.st.Platers, func(p catalog.Plater) bool { return p.ID == f.Target })
		if len(b.deed.Sets) == 0 && !known {
			b.set(shop, target, event.KeyName, f.Target)
		}
		return nil
	}
	level := target.Below(event.TableLevel, f.Level)
	if f.Rate+f.Grade != "" && f.Metal == "" {
		return fmt.Errorf("--rate and --grade are for one metal; say which: --metal steel")
	}
	if f.Metal != "" && f.Rate == "" && f.Grade == "" {
		return fmt.Errorf("--metal %s: say what he takes for a dm2 of it, --rate 40.00, and how fine it gets, --grade 90",
			f.Metal)
	}
	b.set(shop, level.Below(event.TableRate), event.Key(f.Metal), f.Rate)
	b.set(shop, level.Below(event.TableGrade), event.Key(f.Metal), value(f.Grade))
	b.set(shop, level, event.KeyTone, value(f.Tone))
	return nil
}
