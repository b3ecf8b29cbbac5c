package program

import (
	"cmp"
	"reflect"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
)

// TestAgainIsAnew: a program made out of another is the one made from nothing.
func TestAgainIsAnew(t *testing.T) {
	looked, reused, moved := 0, 0, 0
	for seed := range int64(120) {
		st := jobs.Random(seed, 4, jobs.Options{})
		base := Compile(st, Options{FixedLimits: true})
		for piece := range st.Pieces {
			now := st.Clone()
			now.Pieces[piece].Chance = catalog.One / 2
			adjust := func(c *plan.Choice) {
				if c.Piece == piece && c.Plated() {
					c.Plate += 7_00
					c.Grade = max(0, c.Grade-3_00)
				}
			}
			banned := st.Clone() // then it stands in no slot, and rows that keep it out of them are not needed
			banned.Bans = append(banned.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: piece,
				Plater: catalog.None}})
			lost := st.Clone() // then a trade that gives it is not to be had
			lost.Pieces[piece].Stage = catalog.StageLost
			for _, state := range []*catalog.State{st, now, banned, lost} {
				again := base.Again(state, Options{Adjust: adjust}, piece)
				anew := Compile(state, Options{FixedLimits: true, Adjust: adjust})
				if !equalProblems(again.Problem, anew.Problem) {
					t.Fatalf("seed %d, piece %d: another program", seed, piece)
				}
				looked++
				if again.sameWants {
					reused++
				}
				if !again.sameRows() {
					moved++
				}
			}
		}
	}
	if looked < 300 || reused < 200 || moved < 20 {
		t.Errorf("%d looked at, of %d lines were taken over, %d have other rows", looked, reused, moved)
	}
}

// TestFewerLinesAtOnce: leaving off at the first fallback that makes all others needless
// leaves out no line that comparing each with each keeps.
func TestFewerLinesAtOnce(t *testing.T) {
	lines := 0
	for seed := range int64(150) {
		st := jobs.Random(seed, 4, jobs.Options{})
		for _, opt := range []Options{{FixedLimits: true}, {}} {
			p := Compile(st, opt)
			for s, b := range p.Slots {
				j := newDominance(st, s, p.wants, opt, p.steady)
				var want []Pair
				held := b.ranked()
				for _, k := range b.planned {
					var kept []reserve
					for i := range held {
						if b.allowed(k, held[i].f) && !j.outdone(kept, &held[i], &b.choices[k]) {
							kept = append(kept, held[i])
						}
					}
					for i := range kept {
						want = append(want, b.pair(k, kept[i].f))
					}
				}
				got := b.fewerLines(j)
				if !samePairs(got, want) {
					t.Fatalf("seed %d, slot %d: %v, want %v", seed, s, got, want)
				}
				lines += len(got)
			}
		}
	}
	if lines < 2000 {
		t.Errorf("only %d lines", lines)
	}
}

func equalProblems(a, b *solver.Problem) bool { return reflect.DeepEqual(a, b) }

// samePairs compares lines whatever their order.
func samePairs(a, b []Pair) bool {
	order := func(p, q Pair) int { return cmp.Or(cmp.Compare(p.K, q.K), cmp.Compare(p.F, q.F)) }
	a, b = slices.Clone(a), slices.Clone(b)
	slices.SortFunc(a, order)
	slices.SortFunc(b, order)
	return slices.Equal(a, b)
}
