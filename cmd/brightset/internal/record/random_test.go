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
	"brightset/testdata/campaign"
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

// TestRandom plays random records, undos and redos against the books, closing and
// opening the job in between.
func TestRandom(t *testing.T) {
	worked, refused := map[string]int{}, map[string]int{}
	for seed := range uint64(campaign.Cases(48, 500)) {
		g := newGame(t, seed)
		for range 30 {
			g.turn(worked, refused)
		}
		g.undoAll()
	}
	for _, a := range []string{"sent", "priced", "approved", "plated", "refused", "recalled", "back", "hung", "unhung",
		"broke", "graded", "lock", "unlock", "ban", "spent", "undo", "redo"} {
		if worked[a] < campaign.Cases(2, 20) {
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
	d := recorderAt(t, path)
	return &game{t: t, r: rand.New(rand.NewPCG(seed, 5)), path: path, d: d, now: booksOf(d.State),
		start: text0(t, d.State)}
}

func (g *game) turn(worked, refused map[string]int) {
	if g.r.IntN(5) == 0 {
		g.d = recorderAt(g.t, g.path)
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
			st = recorderAt(g.t, g.path).State
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
	g.d = recorderAt(g.t, g.path)
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
