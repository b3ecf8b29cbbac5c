package report

import (
	"fmt"
	"strings"
	"time"

	"brightset/model/plan"
)

// startWarnings name the charges that jobs share which start on different days: each
// job's days are counted as if nothing waited for another.
func startWarnings(out *plan.Joint) []string {
	shared := map[string][]string{} // by the jobs and when they start
	var order []string
	for i := range out.Charges {
		who, differ := starts(out, &out.Charges[i])
		if !differ {
			continue
		}
		if shared[who] == nil {
			order = append(order, who)
		}
		shared[who] = append(shared[who], jointChargeText(&out.Charges[i]))
	}
	var all []string
	for _, who := range order {
		all = append(all, fmt.Sprintf("%s share %s: that must not wait for the later start, "+
			"since each job's days are counted from its own", who, strings.Join(shared[who], ", ")))
	}
	return all
}

// starts lists the jobs with a part in a charge and when each starts, and says whether
// they start on different days.
func starts(out *plan.Joint, c *plan.JointCharge) (who string, differ bool) {
	var list []string
	var first time.Time
	for j := range c.Single {
		start := out.Jobs[j].State.Job.Start
		if c.Single[j] == 0 || !start.Set {
			continue
		}
		if len(list) == 0 {
			first = start.V
		}
		differ = differ || !start.V.Equal(first)
		list = append(list, fmt.Sprintf("%s (start %s)", jobName(out, j), start.V.Format(time.DateOnly)))
	}
	return strings.Join(list, ", "), differ
}
