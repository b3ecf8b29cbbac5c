package ask

import (
	"context"
	"testing"
	"time"

	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
)

// TestLearnLeavesTime: of a set too hard to be proven in the time there is, what is known of
// it to begin with doesn't take the time of the questions that follow.
func TestLearnLeavesTime(t *testing.T) {
	f, _ := seeded.Named("many-offers")
	e, err := program.NewExplorer(context.Background(), seeded.Job(f, 1), program.Options{FixedLimits: true},
		solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	ctx, done := context.WithTimeout(context.Background(), 3*time.Second)
	defer done()
	if err := learn(ctx, e, solver.Change{}); err != nil || ctx.Err() != nil {
		t.Error(err, ctx.Err())
	}
}
