package main

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/record"
	"brightset/model/paper"
	"brightset/model/plan"
)

// keepAll keeps each job's part as the plan that is followed there: of all jobs or, where
// one has changed meanwhile, of none.
func keepAll(c *call, joint *plan.Joint) error {
	for i := range joint.Jobs {
		if _, err := unchanged(&joint.Jobs[i]); err != nil {
			return fmt.Errorf("%w; nothing was kept", err)
		}
	}
	var kept []string
	for i := range joint.Jobs {
		job := &joint.Jobs[i]
		d, err := unchanged(job) // it may have by now
		if err == nil {
			_, err = d.Record(record.Keep(d, job.Plan, paper.KeptShares(joint, i)))
		}
		if err != nil {
			if len(kept) > 0 {
				err = fmt.Errorf("%w; kept so far: %s", err, strings.Join(kept, ", "))
			}
			return err
		}
		kept = append(kept, job.State.Job.File)
	}
	fmt.Fprintf(c.err, "Kept as the plans that are followed: %s. Each job's share of a lot or a bundle that they have in "+
		"common is kept with it: record sent and record bought book it.\n", strings.Join(kept, ", "))
	return nil
}

// unchanged opens a job for recording, if it is still as it was planned.
func unchanged(job *plan.JointJob) (*catalog.Recorder, error) {
	d, err := catalog.OpenRecorder(job.State.Job.File, catalog.Options{Today: now(), Now: now})
	if err == nil && d.State.Revision != job.State.Revision {
		err = fmt.Errorf("%s has changed while this was planned; plan again", job.State.Job.File)
	}
	return d, err
}
