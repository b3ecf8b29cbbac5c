package record

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"

	"brightset/catalog"
)

// books is a simple model of a job: what the records alone say of it.
type books struct {
	pieces map[string]known
	locks  map[string]string // slot -> piece
	bans   int
	spent  catalog.Cents
}

func (b books) copy() books {
	b.pieces, b.locks = maps.Clone(b.pieces), maps.Clone(b.locks)
	return b
}

// open says whether nothing but the piece itself hangs in a slot.
func (b books) open(id, slot string) bool {
	for other, o := range b.pieces {
		if other != id && o.stage == "hung" && o.slot == slot {
			return false
		}
	}
	return true
}

func booksOf(st *catalog.State) books {
	b := books{pieces: map[string]known{}, locks: map[string]string{}, bans: len(st.Bans), spent: st.Job.SpentSum}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		k := known{stage: p.Stage.String(), at: p.AtPlater(), was: p.Sent.Was, cost: p.Sent.Cost, quantity: p.Quantity}
		if p.Stage == catalog.StageHung {
			k.slot = st.Slots[p.HungIn].ID
		}
		if p.Grade.Set {
			k.grade = catalog.FormatCenti(p.Grade.V)
		}
		b.pieces[p.ID] = k
	}
	for _, l := range st.Locks {
		b.locks[st.Slots[l.Slot].ID] = st.Pieces[l.Piece].ID
	}
	return b
}

// move is a record, whether it has to be taken, and what the books say after it. may: it
// may be refused, for a reason the books do not know.
type move struct {
	step
	can, may bool
	after    func(*books)
}

// likely picks a piece, more often one with which a move may go well.
func likely(r *rand.Rand, b books, what int) string {
	all := []string{"p1", "p2", "d1", "bag"}
	some := all
	if r.IntN(4) > 0 {
		some = slices.DeleteFunc(slices.Clone(all), func(id string) bool {
			k := b.pieces[id]
			switch {
			case what >= 3 && what <= 10:
				return k.gone() || !k.at
			case what == 13:
				return k.stage != "hung"
			}
			return k.gone()
		})
	}
	if len(some) == 0 {
		some = all
	}
	return some[r.IntN(len(some))]
}

// moveOf makes up a move.
func moveOf(r *rand.Rand, b books) move {
	what := r.IntN(18)
	id := likely(r, b, what)
	k, slot := b.pieces[id], []string{"a", "b"}[r.IntN(2)]
	cost := catalog.Cents(20+r.IntN(12)*10) * 100
	money, here := catalog.FormatMoney(cost), !k.gone()
	set := func(change func(k *known)) func(*books) {
		return func(b *books) { one := b.pieces[id]; change(&one); b.pieces[id] = one }
	}
	m := move{step: step{"", Facts{Target: id}}}
	switch what {
	case 0, 1:
		first := r.IntN(2) == 0
		m.step = step{"sent", Facts{Target: id, To: "north", Level: "show", Cost: money, StripFirst: first, NewLot: true,
			Slot: map[string]string{"p2": "a", "bag": "b"}[id]}}
		slots := map[string][]string{"p2": {"a"}, "bag": {"b"}}[id]
		if slots == nil {
			slots = []string{"a", "b"}
		}
		open := slices.ContainsFunc(slots, func(s string) bool { return b.open(id, s) })
		m.can = here && !k.at && k.stage != "hung" && open && (id != "bag" || k.quantity == 1)
		m.after = func(b *books) {
			set(func(k *known) {
				k.at, k.was, k.cost = true, true, cost
				switch {
				case !first:
					k.stage = "approved"
				case !k.bare():
					k.stage = "seen"
				}
			})(b)
			b.spent += 30_00 + max(0, 100_00-cost)
			if !first {
				b.spent += cost
			}
		}
		if id == "bag" && k.quantity > 1 { // that makes a second bag, which the books have no word for
			m.name, m.can = "failed", false
			m.facts = Facts{Target: id}
		}
	case 2:
		m.name, m.can, m.may = "stripped", here && (k.at || !k.was) && (k.stage == "seen" || k.bare()), k.stage != "seen"
		m.after = set(func(k *known) {
			if k.stage == "seen" {
				k.stage = "stripped"
			}
		})
	case 3, 4:
		m.name, m.facts.Cost, m.can, m.may = "priced", money, k.at && here, true
		m.after = func(b *books) {
			if k.spent() {
				b.spent += cost - k.cost
			}
			set(func(k *known) {
				k.cost = cost
				if !k.spent() {
					k.stage = "priced"
				}
			})(b)
		}
	case 5, 6:
		m.name, m.can = "approved", here && k.at && !k.spent()
		m.after = func(b *books) { set(func(k *known) { k.stage = "approved" })(b); b.spent += k.cost }
	case 7:
		m.name, m.can = "plated", here && k.at && k.stage == "approved"
		m.after = set(func(k *known) { k.stage = "plated" })
	case 8:
		refused := r.IntN(2) == 0
		m.name, m.facts.Cost, m.can = "recalled", "5.00", here && k.at && k.stage != "plated"
		if refused {
			m.name = "refused"
		}
		m.after = func(b *books) {
			b.spent += 5_00
			if k.spent() {
				b.spent -= k.cost
			}
			if refused {
				b.bans++
			}
			set(func(k *known) {
				if refused || k.stage != "seen" {
					k.stage = "stripped"
				}
				k.at, k.was, k.cost = false, false, 0
			})(b)
		}
	case 9, 10:
		m.name, m.facts.Grade, m.facts.Cost, m.can = "back", "81", money, here && k.at
		m.after = func(b *books) {
			b.spent += cost
			if k.spent() {
				b.spent -= k.cost
			}
			set(func(k *known) { k.stage, k.at, k.grade = "back", false, "81" })(b)
		}
	case 11, 12:
		m.name, m.facts.Slot = "hung", slot
		fits := id == "p1" || id == "d1" || id == "p2" && slot == "a" || id == "bag" && slot == "b"
		m.can, m.may = here && !k.at && !k.bare() && fits && b.open(id, slot), k.stage == "hung"
		m.after = set(func(k *known) { k.stage, k.slot = "hung", slot })
		if id == "bag" && k.quantity > 1 {
			m.name, m.can, m.facts.Slot = "failed", false, ""
		}
	case 13:
		m.name, m.can = "unhung", k.stage == "hung"
		m.after = set(func(k *known) {
			k.stage, k.slot = "seen", ""
			if k.was {
				k.stage = "back"
			}
		})
	case 14:
		if r.IntN(3) > 0 {
			m.step, m.can, m.after = step{"spent", Facts{Target: "wax", Cost: money}}, true, func(b *books) { b.spent += cost }
			break
		}
		m.name, m.can = []string{"broke", "lost", "sold"}[r.IntN(3)], here
		gone := map[string]string{"broke": "broken", "lost": "lost", "sold": "sold"}[m.name]
		if id == "bag" && k.quantity > 1 {
			m.facts.Count = "1"
			m.after = set(func(k *known) { k.quantity-- })
			break
		}
		m.after = set(func(k *known) { k.stage, k.slot, k.at = gone, "", k.at && gone == "" })
	case 15:
		m.name, m.facts.Grade, m.can = "graded", fmt.Sprint(40+r.IntN(50)), here
		m.may = k.grade == m.facts.Grade
		m.after = set(func(k *known) { k.grade = m.facts.Grade })
	case 16:
		m.step, m.can, m.may = step{"lock", Facts{Target: slot, Piece: id}}, true, true
		m.after = func(b *books) { b.locks[slot] = id }
		if r.IntN(2) == 0 {
			if _, there := b.locks[slot]; !there && len(b.locks) == 1 {
				slot = slices.Collect(maps.Keys(b.locks))[0]
			}
			_, locked := b.locks[slot]
			m.step, m.can, m.may = step{"unlock", Facts{Target: slot}}, locked, false
			m.after = func(b *books) { delete(b.locks, slot) }
		}
	case 17:
		m.step, m.can = step{"spent", Facts{Target: "wax", Cost: money}}, true
		m.after = func(b *books) { b.spent += cost }
		if r.IntN(2) == 0 {
			m.step, m.may = step{"ban", Facts{Target: id, Work: "as-is"}}, true
			m.after = func(b *books) { b.bans++ }
		}
	}
	return m
}
