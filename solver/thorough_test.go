package solver

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// TestThorough: a search that is thorough ends with what trying everything
// finds, on one goroutine and on several. That no node is lost where it is begun again,
// TestStartOver says: what these small problems hold is found before.
func TestThorough(t *testing.T) {
	thorough := 0
	for seed := range uint64(campaign.Cases(3000, 30_000)) {
		p := realProblem(rand.New(rand.NewPCG(seed, 91)), 6, 4)
		if refusal(p) != nil {
			continue
		}
		want, has := bruteForce(p, Change{})
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		v := &search{p: p, set: Settings{Goroutines: 1 + int(seed%3)}, ctx: context.Background(), memory: &s.memory,
			leave: without{cursory: true, walks: true, layers: true, knapsack: true, dominance: true, fixing: true}}
		if err := v.run(); err != nil {
			t.Fatal(err)
		}
		res, err := v.result()
		if err != nil {
			t.Fatal(err)
		}
		if res.Status == Stopped || res.Has != has || has && res.Total != want {
			t.Errorf("seed %d: %v %v %d, by trying everything %v %d", seed, res.Status, res.Has, res.Total, has, want)
		}
		if v.thorough {
			thorough++
		}
	}
	if thorough < campaign.Cases(50, 500) {
		t.Errorf("only %d searches were thorough", thorough)
	}
}

// TestStartOver: the node that takes the place of those that wait holds every column that
// one of them does, leaves open what they do not agree on, and has the least of their bounds.
func TestStartOver(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 92))
		p := realProblem(r, 6, 4)
		if refusal(p) != nil {
			continue
		}
		s := &search{p: p, in: newInstance(p, &Change{}, without{})}
		s.in.findBlocks(false)
		alive, ways, least := map[Pick]bool{}, make([]map[int8]bool, len(p.Switches)), 1e9
		for n := range 2 + r.IntN(4) {
			d := s.in.fullDomain()
			for c, k := range s.in.cols {
				if c != s.in.groups[k.group][0] && r.IntN(2) == 0 {
					d.alive.drop(c)
					continue
				}
				alive[Pick{k.group, k.orig}] = true
			}
			for h := range d.y {
				d.y[h] = []int8{off, on, open, on}[r.IntN(4)]
				if ways[h] == nil {
					ways[h] = map[int8]bool{}
				}
				ways[h][d.y[h]] = true
			}
			value := float64(1000 + n*r.IntN(50))
			least = min(least, value)
			s.push(&node{d: d, y: s.in.zeroDuals(), pool: s.in.newPool(), value: value})
		}
		s.startOver()
		if len(s.queue) != 1 || !s.thorough {
			t.Fatalf("seed %d: %d nodes wait", seed, len(s.queue))
		}
		one := s.queue[0]
		for c, k := range s.in.cols {
			if at := (Pick{k.group, k.orig}); one.d.alive.has(c) != alive[at] {
				t.Errorf("seed %d: column %v is there: %v, in one of the nodes: %v", seed, at, one.d.alive.has(c), alive[at])
			}
			delete(alive, Pick{k.group, k.orig})
		}
		if len(alive) > 0 || one.value != least {
			t.Errorf("seed %d: %d columns are gone; a bound of %v, the least is %v", seed, len(alive), one.value, least)
		}
		for h, way := range one.d.y {
			if len(ways[h]) > 1 && way != open || len(ways[h]) == 1 && !ways[h][way] {
				t.Errorf("seed %d: switch %d is %d, in the nodes %v", seed, h, way, ways[h])
			}
		}
	}
}

// TestExpected: what a kind of cut did counts before what all did, per what has to go
// elsewhere, and before anything was tried what has to go elsewhere alone.
func TestExpected(t *testing.T) {
	var h history
	k := &candidate{key: candidateKey{1, -1, -1, 2}, move: [2]float64{0.25, 0.75}}
	if rise, tried := h.expected(k); rise != k.move || tried != 0 {
		t.Errorf("before anything was tried: %v, %d times", rise, tried)
	}
	h.add(&lesson{candidateKey{0, -1, -1, 1}, 0, 0.5, 20})
	if rise, tried := h.expected(k); rise != [2]float64{10, 0.75} || tried != 0 {
		t.Errorf("by what another did: %v, %d times; want 40 by 0.25", rise, tried)
	}
	h.add(&lesson{k.key, 0, 0.5, 2})
	h.add(&lesson{k.key, 1, 0.5, 8})
	h.add(&lesson{k.key, 1, 0.01, 0.32}) // little to go elsewhere counts as 0.02
	if rise, tried := h.expected(k); rise != [2]float64{1, 12} || tried != 1 {
		t.Errorf("by its own: %v, %d times; want 4 by 0.25 and 16 by 0.75, once", rise, tried)
	}
}
