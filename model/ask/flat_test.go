package ask

import (
	"context"
	"math/rand/v2"
	"runtime"
	"testing"

	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestMemoryFlat: many questions of one state leave nothing behind but what a few leave: of
// one program asked again and again, of forks of it, and of programs made from it.
func TestMemoryFlat(t *testing.T) {
	f, _ := seeded.Named("car-30")
	f.Slots = 4
	st := seeded.Job(f, 2)
	e, err := program.NewExplorer(context.Background(), st, program.Options{FixedLimits: true}, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 72))
	ask := func(n int) {
		for i := range n {
			g := r.IntN(len(e.Pairs))
			ch := solver.Change{Ban: []solver.Pick{{Group: g, Column: r.IntN(len(e.Pairs[g]))}}}
			asked := e
			switch i % 3 {
			case 1:
				asked = e.Fork()
			case 2:
				if ch.Ban = nil; i%30 == 2 { // making one takes far longer than asking
					if asked, err = e.After(e.Again(st, program.Options{}, r.IntN(len(st.Pieces)))); err != nil {
						t.Fatal(err)
					}
				}
			}
			if p, err := asked.Ask(context.Background(), ch); err != nil || p.Status == solver.Stopped {
				t.Fatal(p, err)
			}
		}
	}
	live := func() int64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.GC() // what finalizers let go
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	n := campaign.Cases(300, 10_000)
	ask(n / 3) // until what is kept is full
	before := live()
	ask(n)
	if grown := live() - before; grown > 8<<10 {
		t.Errorf("%d questions left %d bytes behind", n, grown)
	}
	runtime.KeepAlive(e)
}
