package record

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
)

// shops says whether a table is written in the shop's journal: what serves all its jobs is, unless it
// stands in the job's own file.
func (b *builder) shops(target event.Target) bool {
	return b.st.Shop.File != "" && (len(b.d.Keys(true, target)) > 0 || len(b.d.Keys(false, target)) == 0)
}

// write sets the keys of a table: texts and money as they are typed, the rest as numbers. A table that
// would have none is known by its name.
func (b *builder) write(shop bool, target event.Target, texts, numbers map[event.Key]string) {
	for key, s := range texts {
		b.set(shop, target, key, s)
	}
	for key, s := range numbers {
		b.set(shop, target, key, value(s))
	}
}

// named is the same for a table with a name, which is all that is known where nothing else is.
func (b *builder) named(shop bool, target event.Target, texts, numbers map[event.Key]string) {
	if b.write(shop, target, texts, numbers); len(b.deed.Sets) == 0 && len(b.d.Keys(shop, target)) == 0 {
		b.set(shop, target, event.KeyName, target.Name())
	}
}

func (b *builder) vendorTerms(f *Facts) error {
	target := event.Of(event.TableVendor, f.Target)
	b.named(b.shops(target), target, map[event.Key]string{event.KeyName: f.Name, event.KeyFreight: f.Freight},
		map[event.Key]string{event.KeyDays: f.Days})
	return nil
}

func (b *builder) makerTerms(f *Facts) error {
	target := event.Of(event.TableMaker, f.Target)
	shop := b.shops(target)
	b.named(shop, target, map[event.Key]string{event.KeyName: f.Name, event.KeyHourly: f.Hourly},
		map[event.Key]string{event.KeyDays: f.Days})
	b.list(shop, target, event.KeyWorks, f.Works)
	return nil
}

// list sets a key to what stands between commas.
func (b *builder) list(shop bool, target event.Target, key event.Key, typed string) {
	if typed == "" {
		return
	}
	all := []any{}
	for one := range strings.SplitSeq(typed, ",") {
		all = append(all, strings.TrimSpace(one))
	}
	b.set(shop, target, key, all)
}

func (b *builder) bundleTerms(f *Facts) error {
	target := event.Of(event.TableBundle, f.Target)
	b.write(b.shops(target), target, map[event.Key]string{event.KeyVendor: f.From, event.KeyPrice: f.Price},
		map[event.Key]string{event.KeyDays: f.Days})
	return nil
}

func (b *builder) matchTerms(f *Facts) error {
	target := event.Of(event.TableMatch, f.Target)
	b.list(false, target, event.KeySlots, f.Slots)
	b.write(false, target, nil, map[event.Key]string{event.KeyGradeWithin: f.GradeWithin,
		event.KeyToneWithin: f.ToneWithin})
	for key, on := range map[event.Key]bool{event.KeySamePlater: f.SamePlater, event.KeyFreshAlike: f.FreshAlike} {
		if on {
			b.set(false, target, key, true)
		}
	}
	return nil
}

func (b *builder) avenueTerms(f *Facts) error {
	target := event.Of(event.TableAvenue, f.Target)
	b.write(false, target, map[event.Key]string{event.KeySlot: f.Slot, event.KeyKind: f.Kind, event.KeyWhere: f.Where,
		event.KeyCost: f.Cost, event.KeyLow: f.Low, event.KeyLikely: f.Price, event.KeyHigh: f.High},
		map[event.Key]string{event.KeyChance: f.Chance, event.KeyDays: f.Days})
	return nil
}

func (b *builder) tradeTerms(f *Facts) error {
	target := event.Of(event.TableTrade, f.Target)
	for key, typed := range map[event.Key]string{event.KeyGive: f.Give, event.KeyGet: f.Get} {
		if typed == "" {
			continue
		}
		i, err := b.piece(typed)
		if err != nil {
			return err
		}
		b.set(false, target, key, b.st.Pieces[i].Key())
	}
	b.set(false, target, event.KeyCredit, f.Credit)
	return nil
}

// jobTerms asks something else of the whole job. A budget is all that may be spent, what is spent
// already included.
func (b *builder) jobTerms(f *Facts) error {
	b.write(false, event.Of(event.TableJob), map[event.Key]string{event.KeyTarget: f.Goal, event.KeyBudget: f.Budget},
		map[event.Key]string{event.KeyWithinDays: f.Days, event.KeyCompletion: f.Completion})
	b.write(false, event.Of(event.TableTarget), nil, map[event.Key]string{event.KeyMean: f.Mean})
	if len(b.deed.Sets) == 0 {
		return fmt.Errorf("say what is asked for: --target nice, --mean 85, --budget 1500.00, --days 120 or --completion 0.9")
	}
	return nil
}

// removable are the kinds of tables that can be taken away.
var removable = []event.Table{event.TablePiece, event.TableSlot, event.TablePlater, event.TableVendor, event.TableMaker,
	event.TableBundle, event.TableMatch, event.TableAvenue, event.TableTrade}

// removed takes a table away with all below it. What something rests on stays: the state without it
// would have a mistake, and that is refused when the act is tried. So does what something happened to.
func (b *builder) removed(f *Facts) error {
	var found []event.Target
	var shop []bool
	var kinds []string
	for _, kind := range removable {
		for _, inShop := range []bool{false, true} {
			target := event.Of(kind, f.Target)
			if inShop && b.st.Shop.File == "" || f.What != "" && f.What != string(kind) || len(b.d.Keys(inShop, target)) == 0 {
				continue
			}
			found, shop, kinds = append(found, target), append(shop, inShop), append(kinds, string(kind))
		}
	}
	switch {
	case len(found) == 0:
		return fmt.Errorf("nothing that can be taken away is called %q; kinds: %s", f.Target, kindNames())
	case len(found) > 1:
		return fmt.Errorf("more than one thing is called %q; say which: --what %s", f.Target,
			strings.Join(kinds, ", or --what "))
	}
	if i, ok := b.st.FindPiece(f.Target); ok && found[0].Is(event.TablePiece) {
		if p := &b.st.Pieces[i]; p.AtPlater() || p.Stage != catalog.StageSeen {
			return fmt.Errorf("%s has been on its way already; what happened to it stays written down", b.name(i))
		}
	}
	b.clear(shop[0], found[0])
	return nil
}

func kindNames() string {
	var all []string
	for _, kind := range removable {
		all = append(all, string(kind))
	}
	slices.Sort(all)
	return strings.Join(all, ", ")
}
