package report

import (
	"cmp"
	"fmt"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/choice"
)

// ownersBudget sets the quote against what the owner wants to pay, where the files say that the
// budget is his.
func (p *Papers) ownersBudget() []page.Block {
	job := &p.Plan.Of.Job
	if !job.Budget.Set || job.BudgetOn != catalog.OnQuote {
		return nil
	}
	whole := job.Budget.V + job.SpentSum
	text := fmt.Sprintf("You wanted to pay %s at most: this leaves %s.", catalog.FormatMoney(whole),
		catalog.FormatMoney(whole-p.Sums.Total))
	if over := p.Sums.Total - whole; over > 0 {
		text = fmt.Sprintf("You wanted to pay %s at most: this is %s more.", catalog.FormatMoney(whole),
			catalog.FormatMoney(over))
	}
	return []page.Block{{Text: []string{text}}}
}

// mayBreak names what is at risk, and who bears it. A chance is told only where quotes or
// outcomes stand behind it.
func (p *Papers) mayBreak() []page.Block {
	st := p.Plan.Of
	var list []string
	for i := range p.Plan.Lines {
		c := p.Plan.Lines[i].Choice
		switch {
		case c.Breakage < catalog.One/200:
		case choice.GuessedBreakage(c):
			list = append(list, st.Slots[c.Slot].Name)
		default:
			list = append(list, fmt.Sprintf("%s: about one in %d such pieces does not survive the work", st.Slots[c.Slot].Name,
				max(1, int((catalog.One+c.Breakage/2)/c.Breakage))))
		}
	}
	if len(list) == 0 {
		return nil
	}
	bears := "The owner bears the loss of a piece of his own, and pays what the work on it has cost us until then."
	if st.Quote.Bears == catalog.ByShop {
		bears = "The shop bears it: a piece that breaks in the work is replaced at no cost to you."
	}
	return []page.Block{{Heading: "What may break, and who bears it", List: list, Text: []string{bears}}}
}

// decidedAgainst tells about the owner's own pieces that are not hung, each once: where it
// would cost least, at what the owner would pay; else what is wrong with it.
func (p *Papers) decidedAgainst() []string {
	st := p.Plan.Of
	hangs := map[int]bool{}
	for i := range p.Plan.Lines {
		hangs[p.Plan.Lines[i].Choice.Piece] = true
	}
	best := map[int]int{}
	var pieces []int
	for i := range p.Rejected {
		r := &p.Rejected[i]
		if st.Pieces[r.Piece].Side != catalog.Customers || hangs[r.Piece] || r.Open {
			continue
		}
		at, known := best[r.Piece]
		if !known {
			pieces = append(pieces, r.Piece)
		}
		if o := &p.Rejected[at]; !known || r.Choice != nil && (o.Choice == nil || r.More < o.More) {
			best[r.Piece] = i
		}
	}
	var all []string
	for _, piece := range pieces {
		r := &p.Rejected[best[piece]]
		text := fmt.Sprintf("%s: %s, ", st.Slots[r.Slot].Name, st.Pieces[piece].Name)
		switch {
		case r.Why != "":
			text += "not good enough: " + cmp.Or(r.Fault, r.Why) // what to write in the files is for the shop
		case r.Both:
			text += "with it no whole set does what was asked for"
		case r.Keeps < 0:
			text += "it is none of the object's own, which is worth keeping to you"
		default:
			text += ownersMore(r, &st.Pieces[piece])
		}
		all = append(all, text)
	}
	return all
}

// ownersMore says what a piece that does not hang would cost the owner more.
func ownersMore(r *ask.RejectedPiece, p *catalog.Piece) string {
	switch {
	case r.OwnerMore > 0 && p.Off:
		return fmt.Sprintf("it came off the object: to keep it on it costs you %s more", catalog.FormatMoney(r.OwnerMore))
	case r.OwnerMore > 0:
		return fmt.Sprintf("%s more for you with it", catalog.FormatMoney(r.OwnerMore))
	case r.OwnerMore < 0 && r.More > 0:
		return fmt.Sprintf("%s less for you if all goes well, and more on average, for what may go wrong",
			catalog.FormatMoney(-r.OwnerMore))
	case r.More > 0 && p.Value > 0:
		return fmt.Sprintf("the same for you with it, but for what it would fetch, about %s", catalog.FormatMoney(p.Value))
	case r.More > 0:
		return "the same for you if all goes well, and more on average, for what may go wrong"
	}
	return "as good, and costs the same"
}
