package record

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
)

// filter writes what a lock or a ban is about.
func (b *builder) filter(target event.Target, f *Facts) error {
	if f.Piece != "" {
		i, err := b.piece(f.Piece)
		if err != nil {
			return err
		}
		b.set(false, target, event.KeyPiece, b.st.Pieces[i].Key())
	}
	b.set(false, target, event.KeyWork, f.Work)
	b.set(false, target, event.KeyPlater, f.To)
	b.set(false, target, event.KeyLevel, f.Level)
	b.set(false, target, event.KeyReason, f.Reason)
	return nil
}

func (b *builder) lock(f *Facts) error {
	if _, err := b.slot(f.Target); err != nil {
		return err
	}
	if f.Piece == "" && f.Work == "" && f.To == "" && f.Level == "" {
		return fmt.Errorf("say what is wanted in %s: --piece, --work, --to or --level", f.Target)
	}
	b.clear(false, event.Of(event.TableLock, b.lockOf(f.Target)))
	target := event.Of(event.TableLock, f.Target)
	return b.filter(target, f)
}

// lockOf is the name of the lock on a slot: the slot's own, unless a file calls it
// otherwise; "" where there is none.
func (b *builder) lockOf(slot string) string {
	for _, id := range b.d.Keys(false, event.Of(event.TableLock)) {
		if at := text(b.d.Value(false, event.Of(event.TableLock, id), event.KeySlot)); at == slot ||
			(at == "" && id == slot) {
			return id
		}
	}
	return ""
}

func (b *builder) unlock(f *Facts) error {
	id := b.lockOf(f.Target)
	if id == "" {
		if _, err := b.slot(f.Target); err != nil {
			return err
		}
		return fmt.Errorf("slot %q has no lock", f.Target)
	}
	b.clear(false, event.Of(event.TableLock, id))
	return nil
}

func (b *builder) ban(f *Facts) error {
	i, err := b.piece(f.Target)
	if err != nil {
		return err
	}
	name := free("no "+b.st.Pieces[i].ID, b.d.Keys(false, event.Of(event.TableBan)))
	target := event.Of(event.TableBan, name)
	if f.Slot != "" {
		if _, err := b.slot(f.Slot); err != nil {
			return err
		}
		b.set(false, target, event.KeySlot, f.Slot)
	}
	f.Piece = f.Target
	return b.filter(target, f)
}

func (b *builder) unban(f *Facts) error {
	id, err := b.banOf(f.Target)
	if err != nil {
		return err
	}
	b.clear(false, event.Of(event.TableBan, id))
	return nil
}

// banOf is the name of a ban: as it was typed, or the one there is on a piece.
func (b *builder) banOf(target string) (string, error) {
	known := b.d.Keys(false, event.Of(event.TableBan))
	i, isPiece := b.st.FindPiece(target)
	if slices.Contains(known, target) {
		return target, nil
	}
	if !isPiece {
		return "", fmt.Errorf("no ban is called %q%s", target, meant(target, known))
	}
	var on []string
	for k := range b.st.Bans {
		if b.st.Bans[k].Piece == i {
			on = append(on, b.st.Bans[k].ID)
		}
	}
	switch len(on) {
	case 0:
		return "", fmt.Errorf("there is no ban on %s%s", b.name(i), meant("", known))
	case 1:
		return on[0], nil
	}
	for k := range on {
		on[k] = InShell(on[k])
	}
	return "", fmt.Errorf("there is more than one ban on %s; say which: %s", b.name(i), strings.Join(on, ", "))
}

func (b *builder) spent(f *Facts) error {
	for _, one := range []struct {
		flag, text string
		sign       catalog.Cents
	}{{"cost", f.Cost, 1}, {"credit", f.Credit, -1}} {
		if one.text == "" {
			continue
		}
		sum, err := money(one.flag, one.text)
		if err != nil {
			return err
		}
		b.spend(one.sign*sum, catalog.None, "%s", f.Target)
	}
	if len(b.deed.Sets) == 0 {
		return fmt.Errorf("say how much: --cost 25.00, or --credit for money that came in")
	}
	return nil
}

// note changes nothing: what was typed is kept as the reason.
func (b *builder) note(f *Facts) error {
	b.deed.Reason = f.Target
	if f.Reason != "" {
		b.deed.Reason += "; " + f.Reason
	}
	return nil
}
