package record

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/catalog/journal"
)

const randomJob = `[job]
title = "played at random"
shop = "shop.toml"
start = 2031-01-10
budget = "900.00"
[slot.a]
part = "arm"
area = "1 dm2"
[slot.b]
part = "arm"
area = "1 dm2"
[piece.p1]
fits = ["arm"]
kind = "original"
metal = "brass"
grade = 50
[piece.p2]
fits = ["a"]
kind = "original"
metal = "brass"
grade = 60
[piece.bag]
fits = ["b"]
kind = "original"
metal = "steel"
quantity = 6
grade = 55
`

const randomShop = `[plater.north]
freight = "30.00"
minimum = "100.00"
days = 20
[plater.north.level.show]
rate = { brass = "40.00", steel = "40.00" }
grade = { brass = 92, steel = 91 }
[piece.d1]
fits = ["arm"]
kind = "original"
metal = "brass"
grade = 45
`

// known is what the records alone say of a piece.
type known struct {
	stage, slot string
	at, was     bool // at a plater's; sent at all
	cost        catalog.Cents
	grade       string
	quantity    int
}

func (k known) gone() bool { return k.stage == "broken" || k.stage == "lost" || k.stage == "sold" }
func (k known) bare() bool {
	return k.stage == "stripped" || k.stage == "priced" || k.stage == "approved"
}
func (k known) spent() bool {
	return k.stage == "approved" || k.stage == "plated"
}

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

// TestRandom plays random records, undos and redos against the books, closing and
// opening the job in between.
func TestRandom(t *testing.T) {
	worked, refused := map[string]int{}, map[string]int{}
	for seed := range uint64(50) {
		g := newGame(t, seed)
		for range 30 {
			g.turn(worked, refused)
		}
		g.undoAll()
	}
	for _, a := range []string{"sent", "priced", "approved", "plated", "refused", "recalled", "back", "hung", "unhung",
		"broke", "graded", "lock", "unlock", "ban", "spent", "undo", "redo"} {
		if worked[a] < 3 {
			t.Errorf("%s was recorded %d times only", a, worked[a])
		}
	}
	t.Log(worked, refused)
}

type game struct {
	t            *testing.T
	r            *rand.Rand
	path         string
	d            *catalog.Recorder
	now          books
	done, undone []books
	said         []string // what was recorded, for the messages
	start        string
}

func newGame(t *testing.T, seed uint64) *game {
	dir := swift(t)
	for name, text := range map[string]string{"job.toml": randomJob, "shop.toml": randomShop} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(dir, "job.toml")
	d := desk(t, path)
	return &game{t: t, r: rand.New(rand.NewPCG(seed, 5)), path: path, d: d, now: booksOf(d.State),
		start: text0(t, d.State)}
}

func (g *game) turn(worked, refused map[string]int) {
	if g.r.IntN(5) == 0 {
		g.d = desk(g.t, g.path)
	}
	switch g.r.IntN(10) {
	case 0:
		g.back(&g.done, &g.undone, g.d.Undo, "undo", worked)
		return
	case 1:
		g.back(&g.undone, &g.done, g.d.Redo, "redo", worked)
		return
	}
	m := moveOf(g.r, g.now)
	before := journals(g.t, g.path)
	err := do(g.t, g.d, m.name, m.facts)
	g.said = append(g.said, fmt.Sprintf("%s %s %s%s %s %s strip first %v: %v", m.name, m.facts.Target, m.facts.Slot,
		m.facts.Piece, m.facts.Cost, m.facts.Grade, m.facts.StripFirst, err))
	if errors.Is(err, catalog.ErrChanged) || (err == nil && !m.can) || (err != nil && m.can && !m.may) {
		g.fail(fmt.Sprintf("%v, has to be taken: %v", err, m.can))
	}
	if err != nil {
		refused[m.name]++
		if journals(g.t, g.path) != before {
			g.fail("refused, it was written")
		}
		return
	}
	worked[m.name]++
	next := g.now.copy()
	m.after(&next)
	g.done, g.undone, g.now = append(g.done, g.now), nil, next
	g.compare()
}

// back takes a step back or forth.
func (g *game) back(from, to *[]books, turn func() (*catalog.State, journal.Entry, error), name string,
	worked map[string]int) {
	_, _, err := turn()
	g.said = append(g.said, fmt.Sprintf("%s: %v", name, err))
	if (err == nil) != (len(*from) > 0) {
		g.fail(fmt.Sprintf("%v with %d to %s", err, len(*from), name))
	}
	if err != nil {
		return
	}
	worked[name]++
	*to = append(*to, g.now)
	n := len(*from) - 1
	g.now, *from = (*from)[n], (*from)[:n]
	g.compare()
}

// compare holds the books against the state, as it is in hand and as it is on disk.
func (g *game) compare() {
	for _, st := range []*catalog.State{g.d.State, nil} {
		if st == nil {
			if g.r.IntN(4) > 0 {
				return
			}
			st = desk(g.t, g.path).State
		}
		got := booksOf(st)
		for id, want := range g.now.pieces {
			if k := got.pieces[id]; k.stage != want.stage || k.slot != want.slot || k.grade != want.grade ||
				k.quantity != want.quantity || !want.gone() && (k.at != want.at || want.at && k.cost != want.cost) {
				g.fail(fmt.Sprintf("%s: %+v, want %+v", id, k, want))
			}
		}
		if got.spent != g.now.spent || got.bans != g.now.bans || !maps.Equal(got.locks, g.now.locks) ||
			len(got.pieces) != len(g.now.pieces) {
			g.fail(fmt.Sprintf("%+v, want %+v", got, g.now))
		}
	}
}

// undoAll takes everything back: nothing is left of it.
func (g *game) undoAll() {
	g.d = desk(g.t, g.path)
	for range g.done {
		if _, _, err := g.d.Undo(); err != nil {
			g.fail(err.Error())
		}
	}
	if text0(g.t, g.d.State) != g.start || !slices.Equal([]string{}, warningsOf(g.d.State)) {
		g.fail("with everything undone the job is another")
	}
}

func warningsOf(st *catalog.State) []string {
	out := []string{}
	for _, w := range st.Warnings {
		out = append(out, w.Message)
	}
	return out
}

func (g *game) fail(why string) {
	g.t.Helper()
	for _, s := range g.said {
		g.t.Log(s)
	}
	g.t.Fatal(why)
}
