package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"brightset/model/program"
	"brightset/model/seeded"
)

// race solves all jobs with all solvers and prints the tables.
func race(ctx context.Context, opt *options, out io.Writer) error {
	field := present(opt, out)
	var results []*familyResult
	for _, f := range opt.families {
		r := &familyResult{family: f, limit: opt.limit.Seconds()}
		for seed := 1; seed <= opt.seeds; seed++ {
			runs, size, err := raceOne(ctx, opt, f, uint64(seed), field)
			if err != nil {
				return err
			}
			r.add(size, runs)
		}
		results = append(results, r)
	}
	t := tabulate(results, field)
	t.write(out)
	if opt.markdown != "" {
		if err := t.writeMarkdown(opt, field); err != nil {
			return err
		}
	}
	if t.wrong > 0 {
		return fmt.Errorf("%d wrong answers, named above", t.wrong)
	}
	return nil
}

// present gives the solvers that take part, and a line for each that doesn't.
func present(opt *options, out io.Writer) []*entrant {
	var field []*entrant
	for _, e := range entrants {
		if len(opt.solvers) > 0 && !slices.Contains(opt.solvers, e.name) {
			continue
		}
		if why := e.missing(); why != "" {
			fmt.Fprintf(out, "%s is left out: %s (go run ./cmd/race -install says how to get it)\n", e.name, why)
			continue
		}
		field = append(field, e)
	}
	return field
}

// raceOne writes one job's program and lets everybody solve it, each starting
// first in turn from seed to seed.
func raceOne(ctx context.Context, opt *options, f seeded.Family, seed uint64,
	field []*entrant) ([]*outcome, int, error) {
	p, err := prepare(opt, f, seed)
	if err != nil {
		return nil, 0, err
	}
	runs := make([]*outcome, len(field))
	for i := range field {
		at := (i + int(seed) - 1) % len(field)
		fmt.Fprintf(opt.progress, "%s, seed %d: %s\n", f.Name, seed, field[at].name)
		runs[at] = field[at].solve(ctx, p)
		if ctx.Err() != nil {
			return nil, 0, errInterrupted
		}
		runs[at].late(opt.limit.Seconds())
	}
	judge(p.matrix, runs)
	return runs, p.size(), os.RemoveAll(p.dir)
}

// late takes the proof away from a run that took it after the limit; a second
// and a twentieth are let pass, since nobody looks at the clock all the time.
func (o *outcome) late(limit float64) {
	if o.failure == "" && o.state != stopped && o.own > limit*1.05+1 {
		o.state = stopped
	}
}

// prepare makes a job, its program as a user's plan gets it (dominated lines
// out, limits fixed), and the MPS text, which is read back for the judge.
func prepare(opt *options, f seeded.Family, seed uint64) (*heat, error) {
	p := &heat{task: task{Family: f, Seed: seed, Limit: opt.limit, Threads: opt.threads}}
	p.dir = filepath.Join(opt.temporary, fmt.Sprintf("%s-%d", f.Name, seed))
	if err := os.MkdirAll(p.dir, 0o755); err != nil {
		return nil, err
	}
	p.mps = filepath.Join(p.dir, "program.mps")
	file, err := os.Create(p.mps)
	if err != nil {
		return nil, err
	}
	err = program.Compile(seeded.Job(f, seed), program.Options{FixedLimits: true}).Problem.WriteMPS(file)
	if closing := file.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return nil, err
	}
	if opt.keep != "" {
		if err := keep(opt.keep, p); err != nil {
			return nil, err
		}
	}
	file, err = os.Open(p.mps)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	p.matrix, err = readMPS(file)
	return p, err
}

func keep(folder string, p *heat) error {
	text, err := os.ReadFile(p.mps)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	name := fmt.Sprintf("%s-%d.mps", p.task.Family.Name, p.task.Seed)
	return os.WriteFile(filepath.Join(folder, name), text, 0o644)
}

// size is the number of lines to choose from: columns that stand in a slot.
func (p *heat) size() int {
	n := 0
	for i := range p.matrix.columns {
		if p.matrix.columns[i].name[0] == 'x' {
			n++
		}
	}
	return n
}
