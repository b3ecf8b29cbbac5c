package ask

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
)

// Weitzman's example of two projects turned round to prices, with 240 in hand: gains
// of 100 or 55 for 15, and of 240 in one case of five for 20, become prices of 140 or
// 185, and of 0. Reservation values 70 and 140 become prices 170 and 100.
func TestReservationPublished(t *testing.T) {
	a := box{cost: 15, prices: []price{{0.5, 140}, {0.5, 185}}}
	w := box{cost: 20, prices: []price{{0.2, 0}}}
	for _, b := range []struct {
		box  *box
		want float64
	}{{&a, 170}, {&w, 100}} {
		if b.box.z = reservation(b.box.cost, b.box.prices); math.Abs(b.box.z-b.want) > 1e-9 {
			t.Errorf("reservation price %v, published %v", b.box.z, b.want)
		}
	}
	if got := expects([]box{w, a}, 240); math.Abs(got-162) > 1e-9 {
		t.Errorf("the best order costs %v, published 162 (240 less 78)", got)
	}
	if got := best([]box{a, w}, 240); math.Abs(got-162) > 1e-9 {
		t.Errorf("trying everything gives %v, published 162", got)
	}
}

// TestTourFindsNothing: a place that never has one is not gone to, whatever a try costs.
func TestTourFindsNothing(t *testing.T) {
	never := catalog.Avenue{Kind: catalog.Original, Likely: 10_00}
	dear := never
	dear.Cost = 50_00
	meet := catalog.Avenue{Kind: catalog.Original, Cost: 5_00, Chance: catalog.One / 2, Low: 20_00, Likely: 20_00,
		High: 20_00}
	h := &Hunted{Finds: []Find{{Profile: Profile{Kind: catalog.Original}, Worth: 200_00, Most: 200_00}}}
	tours := Tours(&catalog.State{Avenues: []catalog.Avenue{never, dear, meet}}, h)
	if len(tours) != 1 || !slices.Equal(tours[0].Tries, []Try{{2, 30_00}}) || tours[0].Expects != 115_00 {
		t.Errorf("%+v", tours)
	}
}

// TestTourSums: with a find that is needed there is no price for doing without, and what is not
// proven is not counted with. The order is the same; an avenue that is too dear for what can be
// done without is not for what cannot, unless the budget never leaves its price.
func TestTourSums(t *testing.T) {
	at := func(cost, price catalog.Cents) catalog.Avenue {
		return catalog.Avenue{Kind: catalog.Original, Cost: cost, Chance: catalog.One / 2, Low: price, Likely: price,
			High: price}
	}
	st := &catalog.State{Avenues: []catalog.Avenue{at(20_00, 50_00), at(5_00, 20_00), at(1_00, 70_00)}}
	end := catalog.Cents(catalog.MaxSum)
	meet, fair, dealer := Try{1, 30_00}, Try{0, 90_00}, Try{2, 72_00}
	for name, c := range map[string]struct {
		find    Find
		tries   []Try
		expects catalog.Cents
		known   bool
	}{
		"proven":             {Find{Worth: 60_00, Most: 60_00}, []Try{meet}, 45_00, true},
		"not proven":         {Find{Worth: 60_00, Most: 95_00, Stopped: true}, []Try{meet}, 0, false},
		"needed":             {Find{Worth: end, Most: end, Rescues: true}, []Try{meet, dealer, fair}, 0, false},
		"needed, and budget": {Find{Worth: 60_00, Most: 60_00, Rescues: true}, []Try{meet, fair}, 0, false},
	} {
		c.find.Profile.Kind = catalog.Original
		tours := Tours(st, &Hunted{Finds: []Find{c.find}})
		if len(tours) != 1 || !slices.Equal(tours[0].Tries, c.tries) || tours[0].Expects != c.expects ||
			tours[0].Known != c.known {
			t.Errorf("%s: %+v", name, tours)
		}
	}
}

// best is the least that any rule costs on average, by going through all of them.
func best(left []box, inHand float64) float64 {
	least := inHand
	for i, b := range left {
		rest := slices.Delete(slices.Clone(left), i, i+1)
		sum, nothing := b.cost, 1.0
		for _, p := range b.prices {
			sum += p.chance * best(rest, min(inHand, p.cents))
			nothing -= p.chance
		}
		least = min(least, sum+nothing*best(rest, inHand))
	}
	return least
}

// TestToursAgainstAllRules compares the rule with dynamic programming over every
// order and every way to stop.
func TestToursAgainstAllRules(t *testing.T) {
	tried := 0
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 9))
		worth := 50 + 300*r.Float64()
		var all, order []box
		for range 1 + r.IntN(4) {
			low := 200 * r.Float64()
			p := r.Float64()
			if r.IntN(10) == 0 {
				p = 0 // finds nothing
			}
			b := box{cost: 40 * r.Float64(),
				prices: []price{{p / 4, low}, {p / 2, low + 30}, {p / 4, low + 100*r.Float64() + 30}}}
			b.z = reservation(b.cost, b.prices)
			all = append(all, b)
			if b.z < worth {
				order = append(order, b)
			}
		}
		slices.SortFunc(order, func(a, b box) int {
			if a.z < b.z {
				return -1
			}
			return 1
		})
		if got, want := expects(order, worth), best(all, worth); math.Abs(got-want) > 1e-6 {
			t.Errorf("seed %d: the rule costs %v, the best of all rules %v", seed, got, want)
		}
		if len(order) > 1 {
			tried++
		}
	}
	if tried < 50 {
		t.Errorf("only %d tours of two or more", tried)
	}
}
