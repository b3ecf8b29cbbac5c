package joint

import (
	"context"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// Worth is a piece of the shop's that the jobs' plans alone want more of than there is,
// and what it is worth to each: what the job would cost more alone without it.
type Worth struct {
	ID   string
	To   []JobUse   // where the joint plan uses it
	Jobs []JobWorth // the jobs whose plans alone use it
}

// JobUse is a slot of a job in which a piece is used.
type JobUse struct {
	Job, Slot int
	Reserve   bool // it is held in reserve there
}

// JobWorth is what a piece is worth to one job.
type JobWorth struct {
	Job    int
	Looked bool          // false: time was up, or a plan is not proven
	Vital  bool          // without it the job can't be done alone
	Cents  catalog.Cents // 0 or more
}

// mostWorths is how many pieces are looked at.
const mostWorths = 6

// Worths looks for such pieces in the order of the first job's shop.
func Worths(ctx context.Context, out *plan.Joint, set solver.Settings) ([]Worth, error) {
	var list []Worth
	for _, id := range wantedByMore(out) {
		if len(list) == mostWorths {
			break
		}
		w := Worth{ID: id}
		for j := range out.Jobs {
			job := &out.Jobs[j]
			piece := pieceAt(job.State, "shop:"+id)
			if piece == catalog.None {
				continue
			}
			w.To = append(w.To, usesOf(j, job.Plan, piece)...)
			if len(usesOf(j, job.Alone, piece)) == 0 {
				continue
			}
			one := JobWorth{Job: j}
			if err := one.look(ctx, job, piece, set); err != nil {
				return nil, err
			}
			w.Jobs = append(w.Jobs, one)
		}
		list = append(list, w)
	}
	return list, nil
}

// look solves the job alone without the piece.
func (w *JobWorth) look(ctx context.Context, job *plan.JointJob, piece int, set solver.Settings) error {
	if ctx.Err() != nil {
		return nil
	}
	without := job.State.Clone()
	without.Pieces[piece].Elsewhere = true // nor can it be given in trade
	plan, err := program.Solve(ctx, without, set)
	if err != nil {
		return err
	}
	w.Looked = job.Alone.Status == solver.Optimal && plan.Status != solver.Stopped
	w.Vital = plan.Status == solver.Infeasible
	if plan.Has {
		w.Cents = max(0, plan.Weighed()-job.Alone.Weighed())
	}
	return nil
}

// wantedByMore are the ids of the shop's pieces that the plans alone together use more of
// than there are.
func wantedByMore(out *plan.Joint) []string {
	used, there := map[string]int{}, map[string]int{}
	for j := range out.Jobs {
		st := out.Jobs[j].State
		for _, l := range out.Jobs[j].Alone.Lines {
			for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
				if c != nil && st.Pieces[c.Piece].InShop {
					id := st.Pieces[c.Piece].ID
					used[id] += choice.Needed(&st.Slots[l.Slot])
					there[id] = choice.PieceCount(&st.Pieces[c.Piece])
				}
			}
		}
	}
	var ids []string
	seen := map[string]bool{}
	for j := range out.Jobs {
		for i := range out.Jobs[j].State.Pieces {
			if p := &out.Jobs[j].State.Pieces[i]; p.InShop && !seen[p.ID] && used[p.ID] > there[p.ID] {
				seen[p.ID] = true
				ids = append(ids, p.ID)
			}
		}
	}
	return ids
}

// usesOf lists where a job's plan uses a piece.
func usesOf(job int, plan *plan.Plan, piece int) []JobUse {
	var list []JobUse
	for i := range plan.Lines {
		l := &plan.Lines[i]
		if l.Choice.Piece == piece {
			list = append(list, JobUse{job, l.Slot, false})
		}
		if l.Fallback != nil && l.Fallback.Piece == piece {
			list = append(list, JobUse{job, l.Slot, true})
		}
	}
	return list
}

// ShortOf names the shop's pieces of which one or more besides what there is would make
// jobs possible together that are not: those for which that alone is enough. whole is
// false where time ran out before it was known of all.
func ShortOf(ctx context.Context, jobs []*catalog.State, set solver.Settings) (short []string, whole bool, err error) {
	t := NewProgram(ctx, jobs)
	if t.gaveUp() {
		return nil, false, nil
	}
	set.Gap = 10 // any plan will do
	s, err := solver.New(t.Problem)
	if err != nil {
		return nil, false, err
	}
	whole = true
	for r := range t.Problem.Rows {
		id, is := strings.CutPrefix(t.Problem.Rows[r].Name, "piece shop:")
		if !is {
			continue
		}
		if ctx.Err() != nil {
			return short, false, nil
		}
		res, err := s.Solve(ctx, solver.Change{Limits: []solver.LimitTo{{Row: r, Limit: program.NoLimit}}}, set)
		if err != nil {
			return nil, false, err
		}
		if res.Has {
			short = append(short, id)
		}
		whole = whole && (res.Has || res.Status == solver.Infeasible)
	}
	return short, whole, nil
}
