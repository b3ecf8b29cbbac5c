package catalog

import "fmt"

// checkSums makes sure that no sum the program may have to work with comes
// near MaxSum: the most that every slot can cost, a fallback and all charges
// included, by a bound that is far above what any plan costs.
func (l *loader) checkSums() {
	s := l.state
	total, worst, worstSlot := 0.0, 0.0, 0
	for i := range s.Platers {
		total += float64(s.Platers[i].Minimum + s.Platers[i].Freight)
	}
	for i := range s.Vendors {
		total += float64(s.Vendors[i].Freight)
	}
	for i := range s.Bundles {
		total += float64(s.Bundles[i].Price) * float64(s.mostBoxes(i))
	}
	for i := range s.Trades {
		total += float64(s.Trades[i].Credit)
	}
	for i := range s.Avenues {
		total += float64(s.Avenues[i].Cost) + float64(s.Avenues[i].High)
	}
	dearest := l.dearest()
	piece := make([]float64, len(s.Slots))
	for i := range s.Pieces {
		for _, slot := range s.Pieces[i].Fits {
			piece[slot] = max(piece[slot], dearest.piece(s, &s.Pieces[i], &s.Slots[slot]))
		}
	}
	for i := range s.Slots {
		slot := &s.Slots[i]
		most := 2*float64(slot.Quantity)*piece[i] + 2*dearest.charges + float64(slot.Rescue.V+slot.Keep)
		if s.Job.BudgetOn == OnQuote { // with markups, in parts of a cent
			most = (2*most + float64(s.Quote.Labour(true))) * float64(s.Quote.Unit())
		}
		if total += most; most > worst {
			worst, worstSlot = most, i
		}
	}
	if total <= float64(MaxSum)/4 {
		return
	}
	if len(s.Slots) == 0 {
		l.mistake(l.job.doc, span{line: 1, column: 1, width: 1}, "the charges add up to more than the program can "+
			"calculate with", "check the prices in the files")
		return
	}
	slot := &s.Slots[worstSlot]
	l.mistake(l.job.doc, span{line: slot.From.Line, column: slot.From.Column, width: len([]rune(keyText(slot.ID)))},
		fmt.Sprintf("costs may add up to more than the program can calculate with, most of all in slot %q", slot.ID),
		"check the slot's quantity and area, and the prices, rates and hours in the files")
}

// mostBoxes is how many of a bundle can be bought at most.
func (s *State) mostBoxes(bundle int) int {
	for i := range s.Pieces {
		if s.Pieces[i].Bundle == bundle {
			return s.Bundles[bundle].Count(s.Pieces[i].Quantity)
		}
	}
	return 1
}

// dearest are the highest prices of work in the state, in cents.
type dearest struct {
	rate    float64 // per dm2
	least   float64 // per piece, strip fee included
	hourly  float64
	charges float64 // minimum and freights of one stand-in
}

func (l *loader) dearest() dearest {
	s := l.state
	d := dearest{hourly: float64(s.Shop.Hourly.V)}
	for i := range s.Makers {
		d.hourly = max(d.hourly, float64(s.Makers[i].Hourly))
	}
	freight := 0.0
	for i := range s.Vendors {
		freight = max(freight, float64(s.Vendors[i].Freight))
	}
	for i := range s.Platers {
		p := &s.Platers[i]
		d.hourly = max(d.hourly, float64(p.Hourly.V))
		d.least = max(d.least, float64(p.Least+p.StripFee))
		d.charges = max(d.charges, float64(p.Minimum+p.Freight))
		for j := range p.Levels {
			for _, r := range p.Levels[j].Rate {
				d.rate = max(d.rate, float64(r.V))
			}
			for _, price := range p.Levels[j].Prices {
				for _, c := range price.Cost {
					d.least = max(d.least, float64(c.V+p.StripFee))
				}
			}
		}
	}
	d.charges += freight
	return d
}

// piece is a bound on what one piece can cost in a slot.
func (d dearest) piece(s *State, p *Piece, slot *Slot) float64 {
	area := float64(slot.Area.V) / float64(One)
	quote, count := 0.0, 0.0
	for i := range p.Quotes {
		quote = max(quote, float64(p.Quotes[i].Cost))
	}
	for i := range p.Findings {
		count += float64(p.Findings[i].Count)
	}
	hours := 0.0
	for i := range p.Fit {
		hours = max(hours, float64(p.Fit[i].Hours))
	}
	for i := range s.Tables.Works {
		w := &s.Tables.Works[i]
		hours += float64(w.Hours.V) + count*float64(w.Each.V) + area*float64(w.PerArea.V)
	}
	work := max(quote, d.least+d.rate*area)
	return float64(p.Price+p.Value) + work + d.least + hours/float64(One)*d.hourly
}
