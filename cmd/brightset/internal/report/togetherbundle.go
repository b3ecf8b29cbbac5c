package report

import (
	"fmt"
	"strings"

	"brightset/model/plan"
)

// bundleWarnings name the shop's bundles out of which several jobs use pieces that stand
// in their own files: nobody can tell there whether two of them mean the same piece.
func bundleWarnings(out *plan.Joint) []string {
	var all []string
	for i := range out.Charges {
		c := &out.Charges[i]
		if c.Kind != plan.ChargeBundle || !c.Common {
			continue
		}
		var who []string
		for j := range out.Jobs {
			if usesOwnOutOf(&out.Jobs[j], c.ID) {
				who = append(who, jobName(out, j))
			}
		}
		if len(who) > 1 {
			all = append(all, fmt.Sprintf("bundle %s: %s use pieces out of it that stand in their own files; "+
				"one that two of them mean is planned twice: write it once, in the shop's file", c.ID, strings.Join(who, ", ")))
		}
	}
	return all
}

// usesOwnOutOf says whether a job's plan uses a piece of its own file out of a bundle.
func usesOwnOutOf(job *plan.JointJob, bundle string) bool {
	st := job.State
	for i := range job.Plan.Lines {
		l := &job.Plan.Lines[i]
		for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
			if c == nil {
				continue
			}
			if p := &st.Pieces[c.Piece]; !p.InShop && p.Bundle >= 0 && st.Bundles[p.Bundle].ID == bundle {
				return true
			}
		}
	}
	return false
}
