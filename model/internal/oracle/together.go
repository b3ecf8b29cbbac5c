package oracle

import (
	"cmp"
	"slices"

	"brightset/catalog"
)

// Two jobs of one shop: all plans of one with all plans of the other. What the shop has
// once is charged once; each job's budget holds even if it has to pay for all it calls for.

// whole is one plan of one job as far as the other job is concerned.
type whole struct {
	cost        catalog.Cents // lines less credits, less what is kept
	calls       calls
	used        map[string]int // of the shop's pieces
	given, came map[string]bool
}

// Once says what two jobs pay for once.
type Once int

const (
	Nothing     Once = iota // each pays all it calls for
	AllOfShop               // all that the shop has once
	ButFreights             // all but the freight of vendors, who are each job's own
)

// Together gives the least total of two jobs.
func Together(pair []*catalog.State, once Once) (least catalog.Cents, found bool) {
	first, second := NewSearch(pair[0]), NewSearch(pair[1])
	b := second.wholes()
	for _, x := range first.wholes() {
		for _, y := range b {
			if found && x.cost+y.cost >= least {
				break
			}
			if !stockSuffices(pair[0], &x, &y) {
				continue
			}
			total := x.cost + y.cost
			if once == Nothing {
				total += sum(first.charges(x.calls, nil)) + sum(second.charges(y.calls, nil))
			} else {
				total += sum(first.charges(first.both(x.calls, y.calls), nil))
			}
			for v := range x.calls.vendors {
				if once == ButFreights && x.calls.vendors[v] && y.calls.vendors[v] {
					total += pair[0].Vendors[v].Freight // both pay it
				}
			}
			if !found || total < least {
				least, found = total, true
			}
		}
	}
	return least, found
}

// wholes are all plans that keep the job's own rules, those with the cheapest lines first.
func (s *Search) wholes() (all []whole) {
	var walk func()
	walk = func() {
		if len(s.picked) == len(s.lines) {
			all = append(all, s.wholesOf()...)
			return
		}
		s.each(walk)
	}
	walk()
	slices.SortStableFunc(all, func(a, b whole) int { return cmp.Compare(a.cost, b.cost) })
	return all
}

// wholesOf is the lines picked with every set of trades that goes with them.
func (s *Search) wholesOf() (out []whole) {
	cost, cash, risk, finish := s.sums()
	if risk > s.limit || finish < s.needed {
		return nil
	}
	called := s.callsOf(s.picked, s.used)
	charges, used := sum(s.charges(called, nil)), map[string]int{}
	for p, n := range s.used {
		if piece := &s.st.Pieces[p]; piece.InShop && n > 0 {
			used[piece.ID] = n
		}
	}
	for set := range 1 << len(s.st.Trades) {
		trades, credit, ok := s.trades(set, s.picked, s.used)
		if !ok || s.overBudget(cost+charges-credit, cash+charges-credit, trades) {
			continue
		}
		one := whole{cost - credit - s.keeps(), called, used, map[string]bool{}, map[string]bool{}}
		for _, t := range trades {
			if p := &s.st.Pieces[s.st.Trades[t].Give]; p.InShop {
				one.given[p.ID] = true
			}
			if p := &s.st.Pieces[s.st.Trades[t].Get]; p.InShop {
				one.came[p.ID] = true
			}
		}
		out = append(out, one)
	}
	return out
}

// stockSuffices says whether the shop's pieces suffice for both, and none that one gives
// away is another's.
func stockSuffices(st *catalog.State, a, b *whole) bool {
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if !p.InShop {
			continue
		}
		twice := a.given[p.ID] && b.given[p.ID] || a.came[p.ID] && b.came[p.ID]
		needed := a.given[p.ID] && b.used[p.ID] > 0 || b.given[p.ID] && a.used[p.ID] > 0
		if a.used[p.ID]+b.used[p.ID] > p.Quantity || twice || needed {
			return false
		}
	}
	return true
}

// both is what two jobs with the same platers, vendors and bundles call for.
func (r *Reader) both(a, b calls) calls {
	c := calls{slices.Clone(a.lots), slices.Clone(a.sent), slices.Clone(a.vendors), slices.Clone(a.bundles)}
	for q := range c.lots {
		c.lots[q], c.sent[q] = c.lots[q] || b.lots[q], c.sent[q]+b.sent[q]
	}
	for v := range c.vendors {
		c.vendors[v] = c.vendors[v] || b.vendors[v]
	}
	for i := range c.bundles {
		if r.st.Bundles[i].Box > 0 { // an offer to one job, and another's is its own
			c.bundles[i] += b.bundles[i]
		} else {
			c.bundles[i] = max(c.bundles[i], b.bundles[i])
		}
	}
	return c
}
