package solver

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
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
	whole, err := s.Front(context.Background(), Change{}, Front{
		Row:  1,
		From: -Limit + 1,
		To:   Limit - 1,
		Next: func(v int64) int64 { return v + 1 },
	}, Settings{}, func(q Point) error {
		points = append(points, [2]int64{-q.Total, q.Sum})
		return nil
	})
	if err != nil || !whole {
		t.Fatal(whole, err)
	}
	return points
}

// TestPublishedFronts: bi-objective knapsacks with their whole fronts, vOptLib
// (Visee, Teghem, Pirlot and Ulungu 1998).
func TestPublishedFronts(t *testing.T) {
	for name, count := range map[string]int{"2KP50-11": 43, "2KP50-50": 51, "2KP50-92": 2, "2KP100-50": 149} {
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
		_, err := s.Front(context.Background(), Change{}, Front{
			Row:  row,
			From: -Limit + 1,
			To:   Limit - 1,
			Next: func(v int64) int64 { return v + 1 },
		}, Settings{}, func(q Point) error {
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
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if points < 60 {
		t.Errorf("only %d points were looked at", points)
	}
}
