package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/record"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/paper"
	"brightset/model/plan"
)

// JointPapers are the sheets of several jobs that are planned together.
type JointPapers struct {
	Plan *plan.Joint
	Jobs []*Papers // in the plan's order; Among of each is all of them
}

// Pages makes the sheets: what leaves the shop once for all jobs, what they share, and for
// each job the shop's own list, what its owner pays of what is shared, and his quote.
func (t *JointPapers) Pages() []*page.Page {
	own := together(t.Jobs)
	all := append(own.orders(), own.buySheet(), own.leftSheet(), t.sharedSheet())
	for i := range all {
		if all[i] != nil {
			all[i].Job = t.title()
		}
	}
	for j, p := range t.Jobs {
		for _, one := range []*page.Page{p.benchSheet(), p.todoCard(), t.statement(j), p.quoteSheet()} {
			if one != nil {
				one.Name = fmt.Sprintf("%s-%d", one.Name, j+1)
				all = append(all, one)
			}
		}
	}
	return whole(all, t.Plan.Fingerprint())
}

// whole leaves out the sheets that there are none of and marks the others as of one plan. No
// two go to one file.
func whole(all []*page.Page, print string) []*page.Page {
	var out []*page.Page
	times := map[string]int{}
	for _, one := range all {
		if one == nil {
			continue
		}
		if times[one.Name]++; times[one.Name] > 1 {
			one.Name = fmt.Sprintf("%s--%d", one.Name, times[one.Name])
		}
		one.Plan = print
		out = append(out, one)
	}
	return out
}

// title names all jobs at the foot of what they have in common.
func (t *JointPapers) title() string {
	var all []string
	for _, p := range t.Jobs {
		all = append(all, p.Plan.Of.Job.Title)
	}
	return shorten(fmt.Sprintf("%d jobs: %s", len(t.Jobs), strings.Join(all, "; ")), 60)
}

// sharedSheet is the shop's own account of what the jobs have in common.
func (t *JointPapers) sharedSheet() *page.Page {
	sheet := t.Jobs[0].sheet("jobs", "Several jobs: what they share", "stays in the shop")
	currency := t.Jobs[0].Plan.Of.Job.Currency
	names := page.NewGrid("=job", "what it is", "file")
	pays := page.NewGrid("=job", ">lines", ">shares", ">evened out", ">in all", ">if all goes well")
	pays.Caption = "On average, with what breaks, but for the last column; all sums in " + currency
	var lines, shares, evened, sum, outlay catalog.Cents
	for j := range t.Plan.Jobs {
		job := &t.Plan.Jobs[j]
		mark, well := fmt.Sprintf("job %d", j+1), paper.Owed(t.Plan, j).Outlay
		names.Row(mark, job.State.Job.Title, job.State.Job.File)
		pays.Row(mark, catalog.FormatMoney(job.Lines), catalog.FormatMoney(job.Shared), catalog.FormatMoney(job.Evened),
			catalog.FormatMoney(job.Pays), catalog.FormatMoney(well))
		lines, shares, evened = lines+job.Lines, shares+job.Shared, evened+job.Evened
		sum, outlay = sum+job.Pays, outlay+well
	}
	pays.Sum("in all", catalog.FormatMoney(lines), catalog.FormatMoney(shares), catalog.FormatMoney(evened),
		catalog.FormatMoney(sum), catalog.FormatMoney(outlay))
	sheet.Blocks = []page.Block{{Grid: names}, {Heading: "What each job pays", Grid: pays}, t.chargesBlock(currency),
		{Heading: "What to type when it has happened", Ticks: t.toType(), Small: []string{
			"The shares are kept with the plans: orders or plan with --keep, before anything goes out. " +
				"What comes otherwise than planned is evened out with brightset record spent."}}}
	return sheet
}

// chargesBlock says what is charged once for several jobs, and how it is split.
func (t *JointPapers) chargesBlock(currency string) page.Block {
	g := page.NewGrid("what", ">each by itself", ">together", "=job", ">its share")
	for i := range t.Plan.Charges {
		c := &t.Plan.Charges[i]
		head := []string{jointChargeText(c), catalog.FormatMoney(c.Apart()), catalog.FormatMoney(c.Cents)}
		for j, share := range c.Shares {
			if c.Single[j] > 0 || share != 0 {
				g.Row(append(head, fmt.Sprintf("job %d", j+1), catalog.FormatMoney(share))...)
				head = []string{"", "", ""}
			}
		}
	}
	g.Caption = "All sums in " + currency
	return page.Block{Heading: "What is charged once", Grid: g, Small: []string{oneLine(rulesText(t.Plan))}}
}

// toType are the commands by which each job's share is booked.
func (t *JointPapers) toType() []string {
	var all []string
	own := together(t.Jobs)
	for _, lot := range paper.CommonLots(own.plans(), make([][]paper.Held, len(own))) {
		for _, part := range lot.Parts {
			pl := own[part.Job].Plan
			var pieces []string
			for _, i := range part.Lines {
				pieces = append(pieces, plan.PieceName(pl.Of, pl.Lines[i].Choice.Piece))
			}
			all = append(all, fmt.Sprintf("brightset record sent %s %s --to %s",
				record.InShell(strings.Join(unique(pieces), ",")), record.InShell(pl.Of.Job.File), pl.Of.Platers[part.Plater].ID))
		}
	}
	all = append(all, t.buyingTyped()...)
	for j := range t.Plan.Jobs {
		job := &t.Plan.Jobs[j]
		key, cents := "--cost", job.Evened
		if cents < 0 {
			key, cents = "--credit", -cents
		}
		if cents != 0 {
			all = append(all, fmt.Sprintf("brightset record spent \"evened out among jobs\" %s %s %s",
				record.InShell(job.State.Job.File), key, catalog.FormatMoney(cents)))
		}
	}
	return all
}

// buyingTyped are the commands by which what is bought is booked, with each job's share of
// what it costs to have it sent.
func (t *JointPapers) buyingTyped() []string {
	var all []string
	for _, buy := range paper.CommonPurchases(together(t.Jobs).plans()) {
		for _, part := range buy.Parts {
			pl := t.Jobs[part.Job].Plan
			var pieces, what []string
			for _, i := range part.Lines {
				pieces = append(pieces, plan.PieceName(pl.Of, pl.Lines[i].Choice.Piece))
			}
			if len(pieces) > 0 {
				what = append(what, strings.Join(unique(pieces), ","))
			}
			for _, b := range part.Bundles {
				what = append(what, pl.Of.Bundles[b].ID)
			}
			for n, one := range what {
				text := fmt.Sprintf("brightset record bought %s %s", record.InShell(one), record.InShell(pl.Of.Job.File))
				if freight := t.freightOf(part); n == 0 && freight > 0 {
					text += " --freight " + catalog.FormatMoney(freight)
				}
				all = append(all, text)
			}
		}
	}
	return all
}

// freightOf is a job's share of what it costs to have sent what it buys from one seller.
func (t *JointPapers) freightOf(part paper.PurchasePart) (share catalog.Cents) {
	if part.Vendor == catalog.None {
		return 0
	}
	id := t.Jobs[part.Job].Plan.Of.Vendors[part.Vendor].ID
	for i := range t.Plan.Charges {
		if c := &t.Plan.Charges[i]; c.Kind == plan.ChargeVendorFreight && c.ID == id {
			share += c.Shares[part.Job]
		}
	}
	return share
}

// statement tells one owner what his job pays of what it has in common with other work in the
// shop, without a name of the trade's people or of another owner; nil where it shares nothing.
func (t *JointPapers) statement(job int) *page.Page {
	p := t.Jobs[job]
	a := paper.AccountOf(t.Plan, job)
	if len(a.Rows) == 0 && a.Evened == 0 {
		return nil
	}
	sub := p.Plan.Of.Job.Title
	if q := &p.Plan.Of.Quote; q.For != "" {
		sub = "for " + q.For
	}
	sheet := p.sheet("statement", "What is shared with other work", sub)
	g := page.NewGrid("what", "=jobs", ">in all", ">your part", ">by yourself")
	g.Caption = fmt.Sprintf("All sums in %s, as they are paid to others", p.Plan.Of.Job.Currency)
	lots := map[string]int{}
	for i := range a.Rows {
		r := &a.Rows[i]
		if r.Kind == "" {
			lots[r.ID] = len(lots) + 1
		}
		g.Row(statementText(r, lots[r.ID]), fmt.Sprint(r.Jobs), catalog.FormatMoney(r.Whole), catalog.FormatMoney(r.Share),
			catalog.FormatMoney(r.Single))
	}
	if a.Evened != 0 {
		g.Row("evened out, so that no job pays more than by itself", "", "", catalog.FormatMoney(a.Evened), "")
	}
	g.Sum("in all", "", "", catalog.FormatMoney(a.Total), catalog.FormatMoney(a.Alone))
	sheet.Blocks = []page.Block{
		{Text: []string{"Some of the work on your job goes out, and some of what it needs is bought, together with that of " +
			"other jobs in our shop. This is your job's part of it."}},
		{Grid: g},
		{List: []string{"The work on your own pieces is charged to your job alone.",
			"Carriage, and what is bought at one price, is split evenly among the jobs that need it.",
			"What a lot lacks of its least charge is split by what each job would lack by itself."}},
	}
	if saved, known := t.Plan.Saves(&t.Plan.Jobs[job]); known && saved > 0 {
		sheet.Blocks = append(sheet.Blocks, page.Block{Text: []string{fmt.Sprintf("The cheapest way for your job "+
			"by itself, with nothing shared, would come to %s more.", catalog.FormatMoney(saved))}})
	}
	return sheet
}

// statementText says what a row of a statement is for; lot is the number of its lot.
func statementText(r *paper.AccountRow, lot int) string {
	switch r.Kind {
	case plan.ChargePlaterFreight:
		return fmt.Sprintf("lot %d: carriage there and back", lot)
	case plan.ChargeMinimum:
		return fmt.Sprintf("lot %d: up to the least charge for a lot", lot)
	case plan.ChargeVendorFreight:
		return "carriage of what is bought"
	case plan.ChargeBundle:
		return "pieces bought together at one price"
	}
	return fmt.Sprintf("lot %d: the work on %s of yours, of %d in the lot", lot, count(r.Pieces, "piece"), r.OfAll)
}
