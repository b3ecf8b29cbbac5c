package solver

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"brightset/testdata/campaign"
)

// plain reads the numbers of a file, comments left out.
func plain(t testing.TB, path string) []int64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var all []int64
	for lines := bufio.NewScanner(f); lines.Scan(); {
		text, _, _ := strings.Cut(lines.Text(), "#")
		for _, word := range strings.Fields(text) {
			var v int64
			if _, err := fmt.Sscan(word, &v); err != nil {
				t.Fatalf("%s: %q: %v", path, word, err)
			}
			all = append(all, v)
		}
	}
	return all
}

// biKnapsack: an item is a group of two columns, in and out. The first objective is
// maximised, the second is the row that rises.
func biKnapsack(t testing.TB, name string) *Problem {
	n := plain(t, filepath.Join("..", "testdata", "published", "bikp", name+".dat"))
	items := int(n[0])
	n = n[3:] // items, objectives, limits
	p := &Problem{Rows: []Row{{Limit: n[3*items]}, {Sense: AtLeast, Limit: -Limit}}}
	for i := range items {
		in := Column{Cost: -n[i], Terms: []Term{{0, n[2*items+i]}, {1, n[items+i]}}}
		p.Groups = append(p.Groups, Group{Columns: []Column{in, {}}})
	}
	return p
}

func wholeFront(t testing.TB, p *Problem) (points [][2]int64) {
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	f := Front{Row: 1, From: -Limit + 1, To: Limit - 1, Next: func(v int64) int64 { return v + 1 }}
	all, gaps, err := s.Front(context.Background(), Change{}, f, Settings{})
	if err != nil || len(gaps) > 0 {
		t.Fatal(gaps, err)
	}
	for _, q := range all {
		points = append(points, [2]int64{-q.Total, q.Sum})
	}
	return points
}

// TestPublishedFronts: bi-objective knapsacks with their whole fronts, vOptLib
// (Visee, Teghem, Pirlot and Ulungu 1998).
func TestPublishedFronts(t *testing.T) {
	fronts := map[string]int{"2KP50-11": 43, "2KP50-92": 2}
	if campaign.Long() {
		fronts["2KP50-50"], fronts["2KP100-50"] = 51, 149
	}
	for name, count := range fronts {
		got := wholeFront(t, biKnapsack(t, name))
		n := plain(t, filepath.Join("..", "testdata", "published", "bikp", name+".front"))
		var want [][2]int64
		for i := 0; i < len(n); i += 2 {
			want = append(want, [2]int64{n[i], n[i+1]})
		}
		order := func(a, b [2]int64) int { return int(a[0] - b[0]) }
		slices.SortFunc(got, order)
		slices.SortFunc(want, order)
		if len(want) != count || !slices.Equal(got, want) {
			t.Errorf("%s: %d points, published %d of %d", name, len(got), len(want), count)
		}
	}
}

// TestFrontByHand: every point of the front of a random problem is the least total
// for its sum, and one more of the sum costs more.
func TestFrontByHand(t *testing.T) {
	points := 0
	for seed := range uint64(60) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 7)), 4, 5)
		row := slices.IndexFunc(p.Rows, func(r Row) bool { return r.Sense == AtLeast })
		if row < 0 {
			continue
		}
		s, _ := New(p)
		f := Front{Row: row, From: -Limit + 1, To: Limit - 1, Next: func(v int64) int64 { return v + 1 }}
		all, _, err := s.Front(context.Background(), Change{}, f, Settings{})
		for _, q := range all {
			points++
			for _, more := range []int64{0, 1} {
				fresh, _ := New(p)
				res, err := fresh.Solve(context.Background(), Change{Limits: []LimitTo{{row, q.Sum + more}}}, Settings{})
				if err != nil || (more == 0 && (!res.Has || res.Total != q.Total)) ||
					(more == 1 && res.Has && res.Total <= q.Total) {
					t.Errorf("seed %d: point %d %d, by hand with %d more %v %d (%v)", seed, q.Total, q.Sum, more, res.Has, res.Total,
						err)
				}
			}
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if points < 60 {
		t.Errorf("only %d points were looked at", points)
	}
}

// risingPairs is a problem with a row in which more costs more.
func risingPairs(seed uint64) *Problem {
	r := rand.New(rand.NewPCG(seed, 68))
	p := paired(r)
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			p.Groups[g].Columns[c].Cost += r.Int64N(40)
		}
	}
	p.Rows[0].Limit = 0
	return p
}

// TestFrontGaps: where searches are cut off, whatever is missing or not proven lies in a
// gap, and none of it is below what is said of that; and where they are not, a coarser step
// has the same points, whether they are looked for at the same time or one by one.
func TestFrontGaps(t *testing.T) {
	missing, gapped, coarse := 0, 0, 0
	seeds := []uint64{52, 118} // where a point is not proven that one after it is no dearer than
	for seed := range uint64(campaign.Cases(80, 2000)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		p := risingPairs(seed)
		front := func(f Front, set Settings) ([]Point, []Gap) {
			s, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			f.Row, f.From, f.To = 0, 1, 600
			points, gaps, err := s.Front(context.Background(), Change{}, f, set)
			if err != nil {
				t.Fatal(err)
			}
			return points, gaps
		}
		fine := func(v int64) int64 { return v + 1 }
		all, none := front(Front{Next: fine}, Settings{})
		if len(none) > 0 {
			t.Fatalf("seed %d: gaps %v with all the time there is", seed, none)
		}
		cut, gaps := front(Front{Next: fine}, Settings{NodeLimit: 1})
		gapped += len(gaps)
		for i := 1; i < len(cut); i++ {
			if cut[i-1].Sum >= cut[i].Sum || cut[i-1].Total >= cut[i].Total {
				t.Errorf("seed %d: of the points %d at %d and %d at %d one is no better in anything", seed, cut[i-1].Total,
					cut[i-1].Sum, cut[i].Total, cut[i].Sum)
			}
		}
		for _, q := range all {
			at := slices.IndexFunc(gaps, func(g Gap) bool { return g.After < q.Sum && q.Sum <= g.Until })
			if slices.ContainsFunc(cut, func(k Point) bool {
				return k.Status == Optimal && k.Total == q.Total && k.Sum == q.Sum
			}) {
				continue
			}
			missing++
			if at < 0 || gaps[at].Bound > q.Total {
				t.Errorf("seed %d: nothing is said of %d at %d: %v", seed, q.Total, q.Sum, gaps)
			}
		}
		step := func(v int64) int64 { return (v/25 + 1) * 25 }
		some, _ := front(Front{Next: step}, Settings{})
		was := runtime.GOMAXPROCS(8)
		same, _ := front(Front{Next: step}, Settings{})
		runtime.GOMAXPROCS(was)
		var want, got, again [][2]int64
		for limit := int64(1); limit <= 600; { // the cheapest for each limit, and of those the highest
			at := slices.IndexFunc(all, func(q Point) bool { return q.Sum >= limit })
			if at < 0 {
				break
			}
			want = append(want, [2]int64{all[at].Total, all[at].Sum})
			limit = step(all[at].Sum)
		}
		for i := range some {
			got = append(got, [2]int64{some[i].Total, some[i].Sum})
		}
		for i := range same {
			again = append(again, [2]int64{same[i].Total, same[i].Sum})
		}
		if coarse += len(want); !slices.Equal(want, got) || !slices.Equal(want, again) {
			t.Errorf("seed %d: points %v one by one, %v at the same time, want %v", seed, got, again, want)
		}
	}
	if missing < 20 || gapped < 20 || coarse < 100 {
		t.Errorf("%d points missing, %d gaps, %d coarse points: too few to tell", missing, gapped, coarse)
	}
}
