package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
)

// task is what a solving child of the race is told.
type task struct {
	Family  seeded.Family
	Seed    uint64
	Limit   time.Duration
	Threads int
}

// report is what it gives back.
type report struct {
	State   state
	Build   float64 // seconds from the job to the program
	Own     float64 // seconds of solver.New and Solve
	Total   float64
	Nodes   int64
	Columns int
	Values  map[string]float64 // by the column's name in the MPS text; zeros left out
}

// solveHere makes the job and solves it as model.Solve does for a user's plan.
func solveHere(text string, out io.Writer) error {
	var t task
	if err := json.Unmarshal([]byte(text), &t); err != nil {
		return err
	}
	began := time.Now()
	p := program.Compile(seeded.Job(t.Family, t.Seed), program.Options{FixedLimits: true})
	built := time.Now()
	s, err := solver.New(p.Problem)
	if err != nil {
		return err
	}
	res, err := s.Solve(context.Background(), solver.Change{},
		solver.Settings{TimeLimit: t.Limit, Goroutines: t.Threads})
	if err != nil {
		return err
	}
	r := report{
		Build: built.Sub(began).Seconds(), Own: time.Since(built).Seconds(),
		Total: float64(res.Total), Nodes: int64(res.Nodes), Columns: countColumns(p.Problem),
	}
	switch res.Status {
	case solver.Optimal:
		r.State = proven
	case solver.Infeasible:
		r.State = infeasible
	default:
		r.State = stopped
	}
	if res.Has {
		if _, err := p.Finish(res); err != nil {
			return err
		}
		r.Values = valuesOf(p.Problem, &res)
	}
	return json.NewEncoder(out).Encode(r)
}

func countColumns(p *solver.Problem) int {
	n := 0
	for g := range p.Groups {
		n += len(p.Groups[g].Columns)
	}
	return n
}

// valuesOf names an answer as the MPS text does.
func valuesOf(p *solver.Problem, res *solver.Result) map[string]float64 {
	v := map[string]float64{}
	for g, c := range res.Pick {
		v[fmt.Sprintf("x%d_%d", g, c)] = 1
	}
	for h := range p.Switches {
		if !res.On[h] {
			continue
		}
		v[fmt.Sprintf("y%d", h)] = 1
		if short := res.Charge[h] - p.Switches[h].Fixed; short > 0 {
			v[fmt.Sprintf("t%d", h)] = float64(short)
		}
	}
	for i := range p.AllEqual {
		for a, g := range p.AllEqual[i].Groups {
			if label := p.AllEqual[i].Labels[a][res.Pick[g]]; label >= 0 {
				v[fmt.Sprintf("s%d_%d", i, label)] = 1
			}
		}
	}
	return v
}

// brightsetSolves runs a task in a child of a program of this command, so that seconds and
// memory are those of a whole process.
func brightsetSolves(ctx context.Context, program string, t task) (measured, report, error) {
	text, err := json.Marshal(t)
	if err != nil {
		return measured{}, report{}, err
	}
	m := launch(ctx, patience(t.Limit), []string{fmt.Sprintf("GOMAXPROCS=%d", t.Threads)}, program, childCommand, "solve",
		string(text))
	if m.Failure != "" {
		return m, report{}, fmt.Errorf("%s %s", m.Failure, firstLine(m.Output))
	}
	var r report
	err = json.Unmarshal(m.Output, &r)
	return m, r, err
}
