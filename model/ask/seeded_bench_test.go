package ask

import (
	"context"
	"fmt"
	"testing"
	"time"

	"brightset/model/internal/jobs"
	"brightset/model/joint"
	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
)

// benchmarkLimit ends a solve that takes too long to be worth repeating.
const benchmarkLimit = 30 * time.Second

// BenchmarkFamilies solves seed 1 of every family of the race to the proof: the
// program is made once, so that the solver alone is timed.
func BenchmarkFamilies(b *testing.B) {
	for _, f := range seeded.Families {
		b.Run(f.Name, func(b *testing.B) {
			p := program.Compile(seeded.Job(f, 1), program.Options{FixedLimits: true})
			nodes := 0
			for b.Loop() {
				s, err := solver.New(p.Problem)
				if err != nil {
					b.Fatal(err)
				}
				res, err := s.Solve(context.Background(), solver.Change{}, solver.Settings{TimeLimit: benchmarkLimit})
				if err != nil {
					b.Fatal(err)
				}
				if res.Status != solver.Optimal {
					b.Skipf("%v after %v, %d nodes", res.Status, benchmarkLimit, res.Nodes)
				}
				nodes = res.Nodes
			}
			b.ReportMetric(float64(nodes), "nodes")
		})
	}
}

// BenchmarkTogether plans several jobs of one shop, program and all, to within 0.1 %:
// three jobs, and fifty of 40 slots each over 2,000 pieces in the drawers.
func BenchmarkTogether(b *testing.B) {
	for _, n := range []int{3, 50} {
		b.Run(fmt.Sprintf("%d-jobs", n), func(b *testing.B) {
			all := jobs.Shop(seeded.OneOfMany, n, 40*n, 1)
			var res solver.Result
			for b.Loop() {
				var err error
				if res, err = program.SolveOnce(context.Background(),
					joint.NewProgram(context.Background(), all).Problem, solver.Change{},
					solver.Settings{Gap: 0.001, TimeLimit: 4 * benchmarkLimit}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(100*float64(res.Total-res.Bound)/float64(res.Total), "%gap")
		})
	}
}
