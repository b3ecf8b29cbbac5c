// Package ask answers what is asked after the plan. Every question is the program once
// more with something changed; one limit of time, the context's, is shared out among the
// searches that an answer takes (clock.go).
//
//	question                          answer              file
//	why this piece                    Why                 why.go, ruleprice.go
//	where does that turn              Breakpoint          breakpoint.go, turning.go, steady.go, facts.go
//	what does more grade cost         Frontier            frontier.go
//	what to look for, at what price   Hunt, Leads, Tours  hunt.go, lead.go, avenue.go
//	why does nothing fit              Explain             conflict.go, relaxation.go, requirement.go
//	what else is there                Others              others.go, leastwork.go, binding.go, rejected.go
//	what to find out first            InformationValues   findout.go, uncertain.go, screen.go, contest.go
//	at which price to stop            StopPrices          stopprice.go
//
// An answer that was cut short says so; what it says until then holds.
package ask
