package report

import (
	"fmt"

	"brightset/cmd/brightset/internal/report/page"
	"brightset/solver"
)

// Early says what of the papers was cut short because time ran out or the user had
// enough; none where all was worked out to the end.
func (p *Papers) Early() []string {
	var all []string
	if p.Plan.Status == solver.Stopped && p.Plan.Stop != solver.CloseEnough {
		all = append(all, "the plan is the best found so far, not proven to be the cheapest")
	}
	if !p.StopsWhole {
		all = append(all, fmt.Sprintf("prices after stripping at which to stop: known of %s only; "+
			"the orders ask for a call about the rest", count(p.stopsProven(), "piece")))
	}
	if h := p.Hunted; h != nil && !h.Whole {
		all = append(all, "what to hunt for: not every find was looked at to the end")
	}
	if !p.RejectedWhole {
		all = append(all, "pieces that are not used: not said of all what the set would cost with them")
	}
	if p.Plan.Of.Quote.Given && p.Sums == nil {
		all = append(all, "no quote to the owner: its limits, or what to set aside, are not known")
	}
	return all
}

// Early says what of the report was cut short.
func (w *Whole) Early() []string {
	all := w.Papers.Early()
	if w.Curve != nil && w.Curve.NoPlan == nil && !w.Curve.Whole {
		all = append(all, "what more grade costs: some points are missing or not proven")
	}
	if w.Curve != nil && w.Curve.NoPlan != nil {
		all = append(all, "what more grade costs: not looked at")
	}
	if w.Risk.Coarse || !w.Sim.Whole() {
		all = append(all, "how it may turn out: by coarse steps or fewer runs")
	}
	if w.Since != nil && w.Since.Early {
		all = append(all, "what has changed since the first plan: not looked at")
	}
	if w.Unknown != nil && !w.Unknown.Whole {
		all = append(all, "what to find out first: not every open figure was looked at to the end")
	}
	return all
}

// StoppedEarly lists what was cut short; "" where nothing was.
func StoppedEarly(early []string) string {
	if len(early) == 0 {
		return ""
	}
	return "\n" + list("Stopped early; give it longer for the whole answer:", early)
}

// earlyBlock says so at the head of a page.
func earlyBlock(early []string) []page.Block {
	if len(early) == 0 {
		return nil
	}
	return []page.Block{{Heading: "Stopped early", ID: "early", List: early}}
}

// stopsProven is of how many pieces it is known at which price to stop.
func (p *Papers) stopsProven() (n int) {
	for i := range p.Stops {
		if p.Stops[i].Proven() {
			n++
		}
	}
	return n
}
