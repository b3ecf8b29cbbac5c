package ask

import (
	"cmp"
	"math"
	"slices"

	"brightset/catalog"
)

// Try is one avenue with the price in hand at which it is no longer worth trying.
type Try struct {
	Avenue  int           // index into the state's avenues
	Reserve catalog.Cents // try it while what is in hand costs more than this
}

// Tour is the order in which to try the avenues of one slot and kind of find.
type Tour struct {
	Find    int           // its place in Hunted.Finds
	Tries   []Try         // in order
	Expects catalog.Cents // on average: tries, and the piece or what doing without costs
	// Known says that Expects is known: what the find is worth is proven, and the set can do
	// without it.
	Known bool
}

// price is what an avenue may ask, and how likely.
type price struct {
	chance float64
	cents  float64
}

// prices of an avenue, nothing found left out: the low and the high price in one
// case of four each, the likely one in two.
func prices(a *catalog.Avenue) []price {
	p := float64(a.Chance) / float64(catalog.One)
	return []price{{p / 4, float64(a.Low)}, {p / 2, float64(a.Likely)}, {p / 4, float64(a.High)}}
}

// reservation is the price z in hand at which a try just pays for itself:
//
//	cost = E[ max(0, z - price) ]
//
// the rule for optimal search of Weitzman 1979, Optimal Search for the Best
// Alternative, Econometrica 47(3), turned round from gains to prices. Nothing found
// counts as no price. An avenue that finds nothing is never worth a try: no price is as high.
func reservation(cost float64, prices []price) float64 {
	slices.SortFunc(prices, func(a, b price) int { return cmp.Compare(a.cents, b.cents) })
	chance, paid := 0.0, 0.0
	for i, p := range prices {
		chance += p.chance
		paid += p.chance * p.cents
		if chance == 0 {
			continue
		}
		// With z between this price and the next: cost = chance z - paid.
		if z := (cost + paid) / chance; i == len(prices)-1 || z <= prices[i+1].cents {
			return z
		}
	}
	return math.Inf(1)
}

// box is an avenue as the rule sees it.
type box struct {
	avenue int
	cost   float64
	prices []price
	z      float64
}

// tour puts the avenues that are worth trying in rising order of their reservation
// prices. It is optimal for one slot whose avenues have nothing to do with each
// other; where finds for several slots hang together it is a rule of thumb. The order does not
// depend on what the find is worth: where that is not proven, the tour has those avenues that
// are worth trying whatever it is.
func tour(st *catalog.State, f *Find, place int) Tour {
	t := Tour{Find: place}
	var all []box
	for i := range st.Avenues {
		if a := &st.Avenues[i]; a.Slot == f.Slot && a.Kind == f.Profile.Kind {
			b := box{avenue: i, cost: float64(a.Cost), prices: prices(a)}
			if b.z = reservation(b.cost, b.prices); b.worthTrying(f, a.Low) {
				all = append(all, b)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b box) int { return cmp.Compare(a.z, b.z) })
	for _, b := range all {
		t.Tries = append(t.Tries, Try{b.avenue, catalog.Cents(b.z)})
	}
	if t.Known = !f.Stopped && !f.Rescues; t.Known {
		t.Expects = catalog.Cents(expects(all, float64(f.Worth)) + 0.5)
	}
	return t
}

// worthTrying says whether to go there with nothing in hand, for a find that may be had for as
// little as low. A find that is needed is worth any cost of a try, if the price may be within
// what keeps the budget.
func (b *box) worthTrying(f *Find, low catalog.Cents) bool {
	if f.Rescues {
		return b.z < float64(catalog.MaxSum) && low <= f.Worth
	}
	return b.z < float64(f.Worth)
}

// expects is what tries and piece cost on average if the boxes, in rising order of
// z, are tried as long as what is in hand costs more than z.
func expects(order []box, inHand float64) float64 {
	type held struct{ chance, cents float64 }
	hand, total := []held{{1, inHand}}, 0.0
	for _, b := range order {
		var next []held
		for _, h := range hand {
			if b.z >= h.cents { // and so are all after it
				total += h.chance * h.cents
				continue
			}
			total += h.chance * b.cost
			nothing := 1.0
			for _, p := range b.prices {
				nothing -= p.chance
				next = append(next, held{h.chance * p.chance, min(h.cents, p.cents)})
			}
			next = append(next, held{h.chance * nothing, h.cents})
		}
		slices.SortFunc(next, func(a, c held) int { return cmp.Compare(a.cents, c.cents) })
		hand = hand[:0]
		for _, h := range next {
			if n := len(hand); n > 0 && hand[n-1].cents == h.cents {
				hand[n-1].chance += h.chance
			} else if h.chance > 0 {
				hand = append(hand, h)
			}
		}
	}
	for _, h := range hand {
		total += h.chance * h.cents
	}
	return total
}

// Tours gives, for every find that some avenue may turn up, the order to try them in.
func Tours(st *catalog.State, h *Hunted) []Tour {
	var all []Tour
	for i := range h.Finds {
		if t := tour(st, &h.Finds[i], i); len(t.Tries) > 0 {
			all = append(all, t)
		}
	}
	return all
}
