package check

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// Joint adds up again what several jobs come to together: each job's own rules and
// sums by Check, the pieces and trades they have in common, the charges and how they are
// split. It shares no code with what made the plan.
func Joint(out *plan.Joint) []Violation {
	if !out.Has {
		return nil
	}
	j := &jointAudit{out: out}
	for n := range out.Jobs {
		for _, v := range Check(out.Jobs[n].State, out.Jobs[n].Plan) {
			j.report(v.Rule, n, "%s: %s", v.Where, v.Message)
		}
	}
	if len(j.found) > 0 {
		return j.found // figures of unsound plans say nothing
	}
	j.checkPieces()
	j.checkTrades()
	j.checkCharges()
	j.checkSums()
	return j.found
}

// jointAudit is one such check under way.
type jointAudit struct {
	out   *plan.Joint
	found []Violation
}

// report takes catalog.None for the jobs as a whole.
func (j *jointAudit) report(rule string, job int, format string, args ...any) {
	where := "all jobs"
	if job != catalog.None {
		where = fmt.Sprintf("job %d", job+1)
	}
	j.found = append(j.found, Violation{rule, where, fmt.Sprintf(format, args...)})
}

// checkPieces: the shop's pieces are there once for all jobs.
func (j *jointAudit) checkPieces() {
	used, there := map[string]int{}, map[string]int{}
	for n := range j.out.Jobs {
		st := j.out.Jobs[n].State
		for _, l := range j.out.Jobs[n].Plan.Lines {
			for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
				if c != nil && st.Pieces[c.Piece].InShop {
					used[st.Pieces[c.Piece].ID] += st.Slots[l.Slot].Quantity
				}
			}
		}
		for i := range st.Pieces {
			if p := &st.Pieces[i]; p.InShop {
				there[p.ID] = max(there[p.ID], p.Quantity)
			}
		}
	}
	for id, n := range used {
		if n > there[id] {
			j.report("piece", catalog.None, "the shop's %q is used %d times, but is there %d times", id, n, there[id])
		}
	}
}

// checkTrades: what one job gives away no other job uses or trades too.
func (j *jointAudit) checkTrades() {
	given, taken := map[string]int{}, map[string]int{}
	for n := range j.out.Jobs {
		st := j.out.Jobs[n].State
		for _, c := range j.out.Jobs[n].Plan.Charges {
			if c.Kind != plan.ChargeTrade {
				continue
			}
			if p := &st.Pieces[st.Trades[c.Of].Give]; p.InShop {
				given[p.ID]++
			}
			if p := &st.Pieces[st.Trades[c.Of].Get]; p.InShop {
				taken[p.ID]++
			}
		}
	}
	for _, side := range []map[string]int{given, taken} {
		for id, n := range side {
			if n > 1 {
				j.report("trade-once", catalog.None, "the shop's %q is traded %d times", id, n)
			}
		}
	}
	for n := range j.out.Jobs {
		st := j.out.Jobs[n].State
		for _, l := range j.out.Jobs[n].Plan.Lines {
			for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
				if c != nil && st.Pieces[c.Piece].InShop && given[st.Pieces[c.Piece].ID] > 0 {
					j.report("trade-give", n, "piece %q is given away, but needed", st.Pieces[c.Piece].ID)
				}
			}
		}
	}
}

// checkSums: what the jobs pay is all there is to pay, and nobody pays too much.
func (j *jointAudit) checkSums() {
	total, pays, keeps := catalog.Cents(0), catalog.Cents(0), catalog.Cents(0)
	for _, c := range j.out.Charges {
		total += c.Cents
	}
	for n := range j.out.Jobs {
		job := &j.out.Jobs[n]
		lines, shared := catalog.Cents(0), catalog.Cents(0)
		for i := range job.Plan.Lines {
			lines += Expected(job.State, job.Plan.Lines[i].Choice, job.Plan.Lines[i].Fallback)
			keeps += kept(auditedLine{k: job.Plan.Lines[i].Choice, f: job.Plan.Lines[i].Fallback})
		}
		for _, c := range job.Plan.Charges {
			if c.Kind == plan.ChargeTrade {
				lines -= job.State.Trades[c.Of].Credit
			}
		}
		for _, c := range j.out.Charges {
			shared += c.Shares[n]
		}
		if job.Lines != lines || job.Shared != shared || job.Pays != lines+shared+job.Evened {
			j.report("pays", n, "pays %s, but %s, %s and %s are asked of it", money(job.Pays), money(lines),
				money(shared), money(job.Evened))
		}
		total += lines
		pays += job.Pays
		if most, limited := j.most(n); limited && job.Pays > most {
			j.report("pays", n, "pays %s, more than the %s it would pay without the others", money(job.Pays),
				money(most))
		}
	}
	if j.out.Expected != total || pays != total {
		j.report("expected", catalog.None, "expected is %s and the jobs pay %s, but it adds up to %s",
			money(j.out.Expected), money(pays), money(total))
	}
	if j.out.Keeps != keeps {
		j.report("keeps", catalog.None, "what is kept is worth %s, but adds up to %s", money(j.out.Keeps), money(keeps))
	}
	if j.out.Bound > total {
		j.report("bound", catalog.None, "the bound %s is above the total %s", money(j.out.Bound),
			money(total))
	}
}

// most is what a job may be asked for at most.
func (j *jointAudit) most(n int) (catalog.Cents, bool) {
	switch j.out.Capped {
	case plan.CapAlone:
		job := &j.out.Jobs[n]
		return job.Alone.Expected - job.Alone.Keeps + job.Plan.Keeps, true
	case plan.CapApart:
		job := &j.out.Jobs[n]
		return job.Apart.Expected - job.Apart.Keeps + job.Plan.Keeps, true
	}
	return 0, false
}
