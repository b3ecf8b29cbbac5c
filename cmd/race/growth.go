package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"brightset/model/seeded"
)

// The sizes of the growth test: slots at growthPieces a slot, then pieces a slot
// at growthSlots.
var (
	slotSizes  = []int{10, 20, 50, 100, 200, 500, 1000}
	pieceSizes = []int{2, 4, 8, 16, 32}
)

const (
	growthPieces = 5
	growthSlots  = 30
)

// growing is one size of job: matches and bundles grow with the slots, people
// don't, and the chance asked for that no slot needs a rescue is alike per slot.
func growing(slots, pieces int) seeded.Family {
	return seeded.Family{
		Name: "growth", Slots: slots, Pieces: pieces, Platers: 5, Vendors: 6, Bundles: slots / 20,
		Trades: 2, Matches: slots / 10, Quotes: 0.3, Leads: 0.1, Completion: math.Pow(0.997, float64(slots)),
		Mean: 84, Floor: 60, Lasting: true, Days: 150,
	}
}

// series is how one of the two sizes grew: a result per size.
type series []*familyResult

var growthHead = []string{"slots", "pieces", "lines", "solver", "own s", "whole s", "nodes", "peak MB", "good"}

// growth solves jobs of growing size and prints what they took.
func growth(ctx context.Context, opt *options, out io.Writer) error {
	field := present(opt, out)
	bySlots, err := growSeries(ctx, opt, field, slotSizes, func(n int) seeded.Family { return growing(n, growthPieces) })
	if err != nil {
		return err
	}
	byPieces, err := growSeries(ctx, opt, field, pieceSizes, func(n int) seeded.Family { return growing(growthSlots, n) })
	if err != nil {
		return err
	}
	rows, faults, wrong := growthRows(field, bySlots, byPieces)
	writeAligned(out, growthHead, rows)
	if len(faults) > 0 {
		fmt.Fprintf(out, "\n%s\n", strings.Join(faults, "\n"))
	}
	fmt.Fprintf(out, "\nmedians over the seeds; good: proven within %g seconds, of all runs. What isn't counts as the "+
		"limit.\n", opt.limit.Seconds())
	if wrong > 0 {
		return fmt.Errorf("%d wrong answers, named above", wrong)
	}
	if opt.markdown == "" {
		return nil
	}
	if err := writeFile(opt.svg, func(w io.Writer) { growthPicture(field, bySlots, byPieces).write(w) }); err != nil {
		return err
	}
	return writeFile(opt.markdown, func(w io.Writer) {
		fmt.Fprintf(w, "# Growth\n\nTime and memory against slots (at %d pieces a slot) and pieces a slot\n"+
			"(at %d slots), on seeded jobs.\n\n", growthPieces, growthSlots)
		fmt.Fprintf(w, "Repeat it with `%s`.\n\n", opt.command())
		writeMachine(w, field)
		fmt.Fprintf(w, "- medians over %d seed(s); good: proven within %g seconds, of all runs; what isn't counts as "+
			"the limit, marked with >\n- without-c: brightset built without C, with the engine of its own\n\n", opt.seeds,
			opt.limit.Seconds())
		writePiped(w, growthHead, rows)
		picture, err := filepath.Rel(filepath.Dir(opt.markdown), opt.svg)
		if err != nil {
			picture = opt.svg
		}
		fmt.Fprintf(w, "\n![Time and memory against size](%s)\n", filepath.ToSlash(picture))
		if len(faults) > 0 {
			fmt.Fprintf(w, "\nNot proven:\n\n- %s\n", strings.Join(faults, "\n- "))
		}
	})
}

func growthRows(field []*entrant, both ...series) (rows [][]string, faults []string, wrong int) {
	for _, s := range both {
		for _, r := range s {
			for _, runs := range r.runs {
				wrong += wrongOf(runs)
			}
			for i, e := range field {
				row := append([]string{"", "", "", e.name}, r.measures(i)...)
				if i == 0 {
					row[0], row[1] = fmt.Sprint(r.family.Slots), fmt.Sprint(r.family.Pieces)
					row[2] = fmt.Sprintf("%.0f", median(r.sizes))
				}
				rows = append(rows, row)
				for _, f := range r.faults(i) {
					faults = append(faults, fmt.Sprintf("%d slots, %d pieces, seed %s", r.family.Slots, r.family.Pieces,
						strings.TrimPrefix(f, r.family.Name+" ")))
				}
			}
		}
	}
	return rows, faults, wrong
}

func growSeries(ctx context.Context, opt *options, field []*entrant, sizes []int,
	family func(int) seeded.Family) (series, error) {
	var s series
	for _, n := range sizes {
		r := &familyResult{family: family(n), limit: opt.limit.Seconds()}
		for seed := 1; seed <= opt.seeds; seed++ {
			runs, lines, err := raceOne(ctx, opt, r.family, uint64(seed), field)
			if err != nil {
				return nil, err
			}
			r.add(lines, runs)
		}
		s = append(s, r)
	}
	return s, nil
}

// growthPicture: seconds above, memory below; slots left, pieces right.
func growthPicture(field []*entrant, bySlots, byPieces series) *picture {
	p := &picture{title: "Time and memory against the size of a job",
		note: "Filled: every seed proven within the limit. Hollow: not every one. Medians; both axes logarithmic."}
	for _, y := range []struct {
		label string
		of    func(*familyResult, int) float64
	}{{"seconds, whole process", func(r *familyResult, i int) float64 { return r.seconds(i, whole).value }},
		{"peak memory, MB", func(r *familyResult, i int) float64 { return r.peak(i) }}} {
		p.panels = append(p.panels,
			panelOf(fmt.Sprintf("slots (%d pieces each)", growthPieces), y.label, field, bySlots,
				func(f *seeded.Family) int { return f.Slots }, y.of),
			panelOf(fmt.Sprintf("pieces per slot (%d slots)", growthSlots), y.label, field, byPieces,
				func(f *seeded.Family) int { return f.Pieces }, y.of))
	}
	return p
}

func panelOf(x, y string, field []*entrant, s series, size func(*seeded.Family) int,
	of func(*familyResult, int) float64) panel {
	n := panel{x: x, y: y}
	for i, e := range field {
		c := curve{name: e.name}
		for _, r := range s {
			if v := of(r, i); v > 0 {
				c.points = append(c.points, point{float64(size(&r.family)), v, r.good(i) == len(r.runs)})
			}
		}
		n.curves = append(n.curves, c)
	}
	return n
}

// reachable says early whether results can be written at all.
func reachable(path string) error {
	if path == "" {
		return nil
	}
	return os.MkdirAll(filepath.Dir(path), 0o755)
}
