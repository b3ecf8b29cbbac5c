package plan

import (
	"crypto/sha256"
	"fmt"

	"brightset/catalog"
	"brightset/solver"
)

// Joint is what several jobs planned together come to.
type Joint struct {
	Status   Status
	Stop     Stop
	Has      bool // the rest is valid
	Expected catalog.Cents
	Keeps    catalog.Cents // what the objects' own pieces are worth to their owners: no money
	Bound    catalog.Cents // no plan of all jobs together is below, at what this one keeps
	Jobs     []JointJob
	Charges  []JointCharge
	Capped   Cap
	Result   solver.Result
}

// JointJob is one job's part of it. What it pays is
//
//	Lines + Shared + Evened = Pays
type JointJob struct {
	State *catalog.State
	Plan  *Plan // its lines, with all charges as if it were alone: so its budget holds
	Alone *Plan // the cheapest if it had the whole stock to itself; Has may be false
	Apart *Plan // its part of the cheapest plans without any sharing of charges; nil if not looked for

	Lines  catalog.Cents // expected, credits of its trades taken off
	Shared catalog.Cents // its shares of the charges
	Evened catalog.Cents // what it gives the others so that none pays more than alone; below zero: gets
	Pays   catalog.Cents
}

// Cap says what no job pays more than.
type Cap int

const (
	CapAlone Cap = iota // its plan alone, with the whole stock to itself
	CapApart            // its part of the cheapest plans without sharing, since all of the first can't be had
	CapNone             // nothing: neither was found in the time there was
)

// JointCharge is a sum that the jobs' lines call for, once for all of them.
type JointCharge struct {
	Kind   ChargeKind
	ID     string          // of the plater, vendor or bundle
	Bundle *catalog.Bundle // of a bundle, or of boxes: what it is; else nil
	Common bool            // it is the shop's, and could be shared
	Cents  catalog.Cents   //
	Single []catalog.Cents // per job, what it would be charged by itself
	Shares []catalog.Cents // per job; they add up to Cents
}

// Apart is what all jobs would be charged if each were by itself.
func (c *JointCharge) Apart() (sum catalog.Cents) {
	for _, one := range c.Single {
		sum += one
	}
	return sum
}

// OwnOutlay is what the job's lines and trades spend if all goes well.
func (j *JointJob) OwnOutlay() catalog.Cents {
	outlay := catalog.Cents(0)
	for i := range j.Plan.Lines {
		outlay += j.Plan.Lines[i].Choice.Cash
	}
	for _, c := range j.Plan.Charges {
		if c.Kind == ChargeTrade {
			outlay += c.Cents
		}
	}
	return outlay
}

// OverBudget is by how much what evens things out, which is no part of the job's budget,
// could exceed it; 0 where it can't.
func (j *JointJob) OverBudget() catalog.Cents {
	if !j.State.Job.Budget.Set || j.Evened <= 0 {
		return 0
	}
	return max(0, j.Evened-j.Plan.BudgetLeft())
}

// Saves is what a job saves by being planned together with others; known is false where
// what it is counted from was not found.
func (out *Joint) Saves(j *JointJob) (saves catalog.Cents, known bool) {
	switch {
	case out.Capped == CapApart && j.Apart != nil:
		return j.Otherwise(j.Apart) - j.Pays, true
	case !j.Alone.Has:
		return 0, false
	}
	return j.Otherwise(j.Alone) - j.Pays, true
}

// Otherwise is what the job would pay by another plan of its, with as much more or less for
// what that one keeps less or more: what no job pays more than.
func (j *JointJob) Otherwise(other *Plan) catalog.Cents {
	return other.Weighed() + j.Plan.Keeps
}

// Fingerprint is a short name for a plan of several jobs and the figures it rests on.
func (out *Joint) Fingerprint() string {
	h := sha256.New()
	for j := range out.Jobs {
		fmt.Fprintln(h, Fingerprint(out.Jobs[j].Plan), out.Jobs[j].Pays)
	}
	return shortHash(h)
}
