// Package risk says how a plan may turn out, and learns from how plans did:
//
//	plan.Plan ──► Outcomes of every line ──► Distribution of what is spent, days, grade
//	                                    └──► Simulation, with spreads and lots in common
//	journals  ──► Experiences ──► Learn ──► rates and factors for the next estimate
package risk
