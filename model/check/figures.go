package check

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// compareFigures names every figure of a choice that the state doesn't give.
func (j *audit) compareFigures(c, again *plan.Choice, where string) {
	money := func(rule string, has, want catalog.Cents) {
		if has != want {
			j.report("figure-"+rule, where, "%s is %s, but the state gives %s", rule, money(has), money(want))
		}
	}
	share := func(rule string, has, want catalog.Micro) {
		if has != want {
			j.report("figure-"+rule, where, "%s is %d millionths, but the state gives %d", rule, has, want)
		}
	}
	hundredths := func(rule string, has, want catalog.Centi) {
		if has != want {
			j.report("figure-"+rule, where, "%s is %s, but the state gives %s", rule, hundredths(has),
				hundredths(want))
		}
	}
	truth := func(rule string, has, want bool) {
		if has != want {
			j.report("figure-"+rule, where, "%s is %t, but the state gives %t", rule, has, want)
		}
	}
	money("get", c.Get, again.Get)
	money("give", c.Give, again.Give)
	money("plate", c.Plate, again.Plate)
	money("before", c.Before, again.Before)
	money("makers", c.Makers, again.Makers)
	money("other", c.Other, again.Other)
	money("strip", c.Strip, again.Strip)
	money("paid", c.ExpectedCost, again.ExpectedCost)
	money("cash", c.Cash, again.Cash)
	money("keep", c.Keep, again.Keep)
	money("keeps", c.Keeps, again.Keeps)
	share("breakage", c.Breakage, again.Breakage)
	share("refused", c.Refused, again.Refused)
	share("chance", c.Chance, again.Chance)
	share("misfit", c.Misfit, again.Misfit)
	money("back", c.Back, again.Back)
	share("fails", c.Fails, again.Fails)
	hundredths("grade", c.Grade, again.Grade)
	hundredths("tone", c.Tone, again.Tone)
	truth("fresh", c.Fresh, again.Fresh)
	truth("redone", c.Redone, again.Redone)
	truth("sent", c.Sent, again.Sent)
	truth("growing", c.Growing, again.Growing)
	truth("weak", c.Weak, again.Weak)
	if c.Days != again.Days {
		j.report("figure-days", where, "takes %d days, but the state gives %d", c.Days, again.Days)
	}
}
