package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"

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

// grown is what one size took: medians over the seeds.
type grown struct {
	slots, pieces     int
	lines             float64
	own, whole, nodes float64
	peakMB            float64
	good, runs        int
}

var growthHead = []string{"slots", "pieces", "lines", "own s", "whole s", "nodes", "peak MB", "good"}

func (g *grown) row() []string {
	return []string{fmt.Sprint(g.slots), fmt.Sprint(g.pieces), fmt.Sprintf("%.0f", g.lines),
		figure{value: g.own}.String(), figure{value: g.whole}.String(), fmt.Sprintf("%.0f", g.nodes),
		fmt.Sprintf("%.0f", g.peakMB),
		fmt.Sprintf("%d/%d", g.good, g.runs)}
}

// growth solves jobs of growing size and prints what they took.
func growth(ctx context.Context, opt *options, out io.Writer) error {
	bySlots, err := growSeries(ctx, opt, slotSizes, func(n int) seeded.Family { return growing(n, growthPieces) })
	if err != nil {
		return err
	}
	byPieces, err := growSeries(ctx, opt, pieceSizes, func(n int) seeded.Family { return growing(growthSlots, n) })
	if err != nil {
		return err
	}
	rows := growthRows(bySlots, byPieces)
	writeAligned(out, growthHead, rows)
	fmt.Fprintf(out, "\nmedians over the seeds; good: proven within %g seconds, of all runs. What isn't counts as it "+
		"ended.\n", opt.limit.Seconds())
	if opt.markdown == "" {
		return nil
	}
	if err := writeFile(opt.svg, func(w io.Writer) { growthPicture(bySlots, byPieces).write(w) }); err != nil {
		return err
	}
	return writeFile(opt.markdown, func(w io.Writer) {
		fmt.Fprintf(w, "# Growth\n\nbrightset's time and memory against slots (at %d pieces a slot) and pieces a "+
			"slot\n(at %d slots), on seeded jobs.\n\n", growthPieces, growthSlots)
		fmt.Fprintf(w, "Repeat it with `%s`.\n\n", opt.command())
		writeMachine(w, entrants[:1])
		fmt.Fprintf(w, "- medians over %d seed(s); good: proven within %g seconds, of all runs; what isn't counts as "+
			"it ended\n\n", opt.seeds, opt.limit.Seconds())
		writePiped(w, growthHead, rows)
		picture, err := filepath.Rel(filepath.Dir(opt.markdown), opt.svg)
		if err != nil {
			picture = opt.svg
		}
		fmt.Fprintf(w, "\n![Time and memory against size](%s)\n", filepath.ToSlash(picture))
	})
}

func growthRows(series ...[]grown) [][]string {
	var rows [][]string
	for _, s := range series {
		for i := range s {
			rows = append(rows, s[i].row())
		}
	}
	return rows
}

func growSeries(ctx context.Context, opt *options, sizes []int, family func(int) seeded.Family) ([]grown, error) {
	var series []grown
	for _, n := range sizes {
		g, err := grow(ctx, opt, family(n))
		if err != nil {
			return nil, err
		}
		series = append(series, g)
	}
	return series, nil
}

func grow(ctx context.Context, opt *options, f seeded.Family) (grown, error) {
	g := grown{slots: f.Slots, pieces: f.Pieces, runs: opt.seeds}
	var lines, own, whole, nodes, peak []float64
	for seed := 1; seed <= opt.seeds; seed++ {
		fmt.Fprintf(opt.progress, "%d slots, %d pieces, seed %d\n", f.Slots, f.Pieces, seed)
		m, r, err := brightsetSolves(ctx, task{Family: f, Seed: uint64(seed), Limit: opt.limit, Threads: opt.threads})
		if ctx.Err() != nil {
			return g, errInterrupted
		}
		if err != nil {
			return g, fmt.Errorf("%d slots, %d pieces, seed %d: %w", f.Slots, f.Pieces, seed, err)
		}
		if r.State != stopped {
			g.good++
		}
		lines, nodes = append(lines, float64(r.Columns)), append(nodes, float64(r.Nodes))
		own, whole = append(own, r.Own), append(whole, m.Seconds)
		peak = append(peak, float64(m.PeakKB)/1024)
	}
	g.lines, g.nodes, g.own, g.whole, g.peakMB = median(lines), median(nodes), median(own), median(whole), median(peak)
	return g, nil
}

// growthPicture: seconds above, memory below; slots left, pieces right.
func growthPicture(bySlots, byPieces []grown) *picture {
	p := &picture{title: "brightset: time and memory against the size of a job",
		note: "Filled: every seed proven within the limit. Hollow: not every one. Medians; both axes logarithmic."}
	for _, y := range []struct {
		label string
		of    func(*grown) float64
	}{{"seconds, whole process", func(g *grown) float64 { return g.whole }},
		{"peak memory, MB", func(g *grown) float64 { return g.peakMB }}} {
		p.panels = append(p.panels,
			panelOf(fmt.Sprintf("slots (%d pieces each)", growthPieces), y.label, bySlots,
				func(g *grown) int { return g.slots }, y.of),
			panelOf(fmt.Sprintf("pieces per slot (%d slots)", growthSlots), y.label, byPieces,
				func(g *grown) int { return g.pieces }, y.of))
	}
	return p
}

func panelOf(x, y string, series []grown, size func(*grown) int, of func(*grown) float64) panel {
	n := panel{x: x, y: y}
	for i := range series {
		g := &series[i]
		n.points = append(n.points, point{float64(size(g)), of(g), g.good == g.runs})
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
