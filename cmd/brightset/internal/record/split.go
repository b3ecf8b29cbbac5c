package record

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/plan"
)

// split leaves n pieces in a bag, those that something happens to, and puts the rest into
// a bag of its own, which is like the first one in everything else. What was to be made
// of the rest in other slots (locks, the plan that was kept), bans and trades go on with
// it. slot is where the n belong, catalog.None if that is not known.
func (b *builder) split(i, n, slot int) {
	p := &b.st.Pieces[i]
	if n < 1 || n >= p.Quantity {
		return
	}
	shop, from := b.of(i)
	rest := b.restName(p.ID)
	to := event.Of(event.TablePiece, rest)
	b.setPiece(i, event.KeyQuantity, int64(n))
	for _, key := range b.d.Keys(shop, from) {
		if key := event.Key(key); key != event.KeyQuantity && key != event.Key(event.TableSent) {
			b.set(shop, to, key, b.d.Value(shop, from, key))
		}
	}
	b.set(shop, to, event.KeyQuantity, int64(p.Quantity-n))
	b.follow(i, rest, b.staying(i, n, slot))
}

// restName is the first free name for the rest of a bag: clips-2, clips-3 ...
func (b *builder) restName(id string) string {
	base := id
	if at := strings.LastIndex(id, "-"); at > 0 && b.isRest(id) {
		base = id[:at]
	}
	for n := 2; ; n++ {
		name := fmt.Sprintf("%s-%d", base, n)
		if _, taken := b.st.FindPiece(name); !taken && len(b.d.Keys(true, event.Of(event.TablePiece, name))) == 0 {
			return name
		}
	}
}

// isRest says whether a bag is what was left of another: clips-2 of clips.
func (b *builder) isRest(id string) bool {
	at := strings.LastIndex(id, "-")
	if at <= 0 {
		return false
	}
	n, err := strconv.Atoi(id[at+1:])
	first, ok := b.st.FindPiece(id[:at])
	i, here := b.st.FindPiece(id)
	if err != nil || n < 2 || !ok || !here {
		return false
	}
	p, q := &b.st.Pieces[first], &b.st.Pieces[i]
	return p.Name == q.Name || (p.Name == p.ID && q.Name == q.ID)
}

// restOf is what was left of a bag, catalog.None if nothing was.
func (b *builder) restOf(i int) int {
	p := &b.st.Pieces[i]
	for k := range b.st.Pieces {
		r := &b.st.Pieces[k]
		if k != i && r.InShop == p.InShop && r.Side == p.Side && strings.HasPrefix(r.ID, p.ID+"-") && b.isRest(r.ID) &&
			r.Stage < catalog.StageHung && !r.AtPlater() {
			return k
		}
	}
	return catalog.None
}

// howMany pieces of a bag go to a plater: as many as are said, else as many as the plan
// that was kept has for this, else as many as the slot needs.
func (b *builder) howMany(i int, c *plan.Choice, f *Facts) (int, error) {
	if f.Count != "" {
		return b.count(i, f)
	}
	kept := b.planned(i, func(k *catalog.KeptChoice) bool {
		return k.Work == c.Work && k.Plater == b.st.Platers[c.Plater].ID && k.Level == c.Level
	})
	return min(max(b.st.Slots[c.Slot].Quantity, kept), b.st.Pieces[i].Quantity), nil
}

// howManyBought are as many as are said, else as many as the plan that was kept hangs,
// else all; of what is sold by the box, whole boxes.
func (b *builder) howManyBought(i int, f *Facts) (int, error) {
	kept := b.planned(i, func(*catalog.KeptChoice) bool { return true })
	box := b.box(i)
	if f.Count != "" || kept == 0 {
		n, err := b.count(i, f)
		if err == nil && box != nil && n%box.Box != 0 {
			err = fmt.Errorf("--count %q: %s is sold in boxes of %d; write %d", f.Count, b.name(i), box.Box,
				box.Count(n)*box.Box)
		}
		return n, err
	}
	if box != nil {
		kept = box.Count(kept) * box.Box
	}
	return min(kept, b.st.Pieces[i].Quantity), nil
}

// planned is how many of a bag the kept plan hangs in a certain way.
func (b *builder) planned(i int, so func(*catalog.KeptChoice) bool) int {
	n := 0
	if b.st.Kept == nil {
		return 0
	}
	for _, l := range b.st.Kept.Lines {
		if s, ok := b.st.SlotIndex(l.Slot); ok && l.Piece == b.st.Pieces[i].Key() && so(&l.KeptChoice) {
			n += b.st.Slots[s].Quantity
		}
	}
	return n
}

// prepared spends what the shop and the makers did to a piece before it goes to a plater,
// unless that was done for an earlier lot, out of which it came back unplated, and the
// record is of before it was kept which works were.
func (b *builder) prepared(i int, own, makers catalog.Cents) {
	text := fmt.Sprintf("work on %s before it is plated", b.name(i))
	kept := slices.ContainsFunc(b.st.Pieces[i].Findings, func(f catalog.Finding) bool { return len(f.Done) > 0 })
	for _, s := range b.st.Job.Spent {
		if !kept && s.Piece == i && s.For == text && b.st.Pieces[i].Stage < catalog.StageBack {
			return
		}
	}
	b.spendAs(catalog.BearsNone, own, i, "%s", text)
	b.spendAs(catalog.BearsPlating, makers, i, "%s", text)
}

// staying are the slots that n pieces of a bag are for: the one where they belong, then
// those for which the kept plan has the bag, as long as there are enough.
func (b *builder) staying(i, n, slot int) map[string]bool {
	stay := map[string]bool{}
	keep := func(s int) {
		if need := b.st.Slots[s].Quantity; need <= n && !stay[b.st.Slots[s].ID] {
			n -= need
			stay[b.st.Slots[s].ID] = true
		}
	}
	if slot != catalog.None {
		keep(slot)
	}
	for s := range b.st.Slots {
		if text(b.d.Value(false, event.Of(event.TablePlan, b.st.Slots[s].ID), event.KeyPiece)) == b.st.Pieces[i].Key() {
			keep(s)
		}
	}
	for _, l := range b.st.Locks {
		if l.Piece == i {
			keep(l.Slot)
		}
	}
	return stay
}

// follow lets locks on other slots than those that stay, the kept plan's lines for them,
// bans and trades be about the rest of a bag.
func (b *builder) follow(i int, rest string, stay map[string]bool) {
	was, now := b.st.Pieces[i].Key(), "job:"+rest
	if b.st.Pieces[i].InShop {
		now = "shop:" + rest
	}
	for _, id := range b.d.Keys(false, event.Of(event.TableLock)) {
		lock := event.Of(event.TableLock, id)
		at := text(b.d.Value(false, lock, event.KeySlot))
		if at == "" {
			at = id
		}
		if b.means(b.d.Value(false, lock, event.KeyPiece), i) && !stay[at] {
			b.set(false, lock, event.KeyPiece, now)
		}
	}
	for _, id := range b.d.Keys(false, event.Of(event.TableBan)) {
		ban := event.Of(event.TableBan, id)
		if !b.means(b.d.Value(false, ban, event.KeyPiece), i) {
			continue
		}
		on := event.Of(event.TableBan, id+", "+rest)
		for _, key := range b.d.Keys(false, ban) {
			b.set(false, on, event.Key(key), b.d.Value(false, ban, event.Key(key)))
		}
		b.set(false, on, event.KeyPiece, now)
	}
	for _, id := range b.d.Keys(false, event.Of(event.TableTrade)) {
		if trade := event.Of(event.TableTrade, id); b.means(b.d.Value(false, trade, event.KeyGive), i) {
			b.set(false, trade, event.KeyGive, now)
		}
	}
	for _, id := range b.d.Keys(false, event.Of(event.TablePlan)) {
		line := event.Of(event.TablePlan, id)
		if text(b.d.Value(false, line, event.KeyPiece)) == was && !stay[id] {
			b.set(false, line, event.KeyPiece, now)
		}
		if f, ok := b.d.Value(false, line, event.KeyFallback).(map[string]any); ok && f[string(event.KeyPiece)] == was {
			f[string(event.KeyPiece)] = now
			b.set(false, line, event.KeyFallback, f)
		}
	}
}

// means says whether a value names a piece.
func (b *builder) means(v any, i int) bool {
	at, ok := b.st.FindPiece(text(v))
	return ok && text(v) != "" && at == i
}
