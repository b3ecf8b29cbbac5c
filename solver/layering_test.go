package solver

import (
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// TestLayers holds what is found block by block, under any multipliers and in any domain,
// against trying every pick: nothing below what is in the domain, nothing above it, and of
// equal totals the least ties.
func TestLayers(t *testing.T) {
	through, found := 0, 0
	for seed := range uint64(campaign.Cases(12_000, 120_000)) {
		r := rand.New(rand.NewPCG(seed, 77))
		p := randomProblem(r, 2+r.IntN(4), 5)
		switch seed % 4 {
		case 0, 1:
			p = realProblem(r, 2+r.IntN(4), 4)
		case 2:
			p = realBlocks(r)
		}
		in := newInstance(p, &Change{}, without{})
		d := randomDomain(r, in)
		if !in.propagate(d) {
			continue
		}
		in.findBlocks(seed%2 == 0)
		y := in.randomDuals(r)
		b, late := in.lagrangian(d, y, true), func() bool { return true }
		if in.layer(d, b, y, &incumbent{}, in.beyond(), 100_000, late) {
			t.Fatalf("seed %d: gone through when time was up", seed)
		}
		got := incumbent{equal: true}
		if !in.layer(d, b, y, &got, in.beyond(), 100_000, in.halt) {
			continue
		}
		through++
		within, anywhere := in.tryAll(p, d)
		if within.has {
			found++
		}
		if within.has && (!got.has || better(&within, &got)) || got.has && (!anywhere.has || better(&got, &anywhere)) {
			t.Fatalf("seed %d: %v %d %v; in the domain %v %d %v, anywhere %v %d %v", seed, got.has, got.total, got.tie,
				within.has, within.total, within.tie, anywhere.has, anywhere.total, anywhere.tie)
		}
	}
	if through < campaign.Cases(3000, 30_000) || found < campaign.Cases(2500, 25_000) {
		t.Errorf("%d gone through, %d with something to find", through, found)
	}
}

// TestLayersUnproven: where the best setting of voluntary switches beside a pick is not proven,
// neither is it that the node holds nothing better.
func TestLayersUnproven(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 78))
	p := &Problem{Rows: []Row{{Name: "room"}}, Groups: []Group{{Columns: []Column{{}}}}}
	for range 30 { // about as dear as they are large: hard to choose among
		size := 100_000 + r.Int64N(10_000)
		p.Rows[0].Limit += size / 3
		p.Switches = append(p.Switches, Switch{Fixed: -size - r.Int64N(50), Voluntary: true, Terms: []Term{{0, size}}})
	}
	in := newInstance(p, &Change{}, without{})
	in.findBlocks(false)
	d, y := in.fullDomain(), in.zeroDuals()
	tally := in.newTally()
	tally.set(0, 0)
	if _, exact, _ := (&incumbent{}).offerWithin(tally, d.y, mostSettings); exact {
		t.Fatal("the best setting is proven: this shows nothing")
	}
	if in.layer(d, in.lagrangian(d, y, true), y, &incumbent{}, in.beyond(), 100_000, in.halt) {
		t.Error("gone through, though the best setting is not proven")
	}
}

// randomDomain takes a few columns away and settles a few switches.
func randomDomain(r *rand.Rand, in *instance) *domain {
	d := in.fullDomain()
	for c := range in.cols {
		if r.IntN(8) == 0 {
			d.alive.drop(c)
		}
	}
	for h := range d.y {
		switch r.IntN(6) {
		case 0:
			d.y[h] = off
		case 1:
			d.y[h] = on
		}
	}
	return d
}

// tryAll is the best of all picks and settings in the domain, and of all there are.
func (in *instance) tryAll(p *Problem, d *domain) (within, anywhere incumbent) {
	pick, orig := make([]int, len(in.groups)), make([]int, len(in.groups))
	var try func(g int)
	try = func(g int) {
		if g < len(in.groups) {
			for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
				pick[g], orig[g] = c, in.cols[c].orig
				try(g + 1)
			}
			return
		}
		inside := true
		now := incumbent{has: true}
		for _, c := range pick {
			inside = inside && d.alive.has(c)
			for i, v := range in.cols[c].tie {
				now.tie[i] += v
			}
		}
		for mask := range 1 << len(in.voluntary) {
			vol := make([]bool, len(in.switches))
			for i, h := range in.voluntary {
				vol[h] = mask>>i&1 == 1
			}
			o := p.Evaluate(orig, vol, Change{})
			if len(o.Broken) > 0 {
				continue
			}
			now.total = o.Total
			if !anywhere.has || better(&now, &anywhere) {
				anywhere = now
			}
			fits := inside
			for h, v := range d.y {
				fits = fits && (v == open || (v == on) == o.On[h])
			}
			if fits && (!within.has || better(&now, &within)) {
				within = now
			}
		}
	}
	try(0)
	return within, anywhere
}
