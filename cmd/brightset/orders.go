package main

import (
	"context"
	"html/template"
	"os"
	"path/filepath"
	"time"

	"brightset/catalog"
	"brightset/catalog/disk"
	"brightset/cmd/brightset/internal/report"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"
	"brightset/solver"
	"brightset/solver/parallel"

	"github.com/spf13/pflag"
)

var ordersCommand = command{
	name: "orders", args: "[JOB ...]", most: mostJobs,
	summary: "write the papers: work orders, purchases, hunt list, the owner's quote",
	text: "Writes a folder of sheets to print, each of which stands alone: a work order per plater and maker, the " +
		"shop's own work, what to buy, what is left over, what to hunt for, and, with a table [quote] in the job's or the " +
		"shop's file, the quote to the owner." +
		"\nA piece that nobody has tried on the object goes on no order: bending it after plating cracks the plating. What " +
		"has to match it waits with it. Note what fits with brightset record fitted, or say with --unfitted why it goes " +
		"all the same." +
		"\nSeveral jobs of one shop are planned together, as plan JOB JOB does: what goes to one plater for all of them " +
		"stands on one order, and each owner gets a statement of what his job pays of what is shared. With --keep each " +
		"job's shares are kept too, and record sent and record bought book them." +
		"\nOn a plater's order stands what he has named or what we expect, and from where on he has to call: call_above " +
		"in [shop], 15 % if not given. What we would pay at most stays on the shop's own list.",
	setup: func(flags *pflag.FlagSet) action {
		var o ordersOptions
		flags.StringVar(&o.out, "out", "", "the `FOLDER` to write to (default: orders- and the name of the plan, beside "+
			"the job's file)")
		flags.BoolVar(&o.spec, "spec", false, "add a sheet per plater on what open standards ask")
		flags.StringVar(&o.unfitted, "unfitted", "", "send pieces that were not tried on too, and say `WHY`")
		o.within.flag(flags)
		flags.BoolVar(&o.keep, "keep", false, "keep this plan as the one that is followed")
		o.jsonFlag(flags, "write what was written, and what is held back, as one JSON document")
		o.limitFlag(flags, "orders", "30s", "30s", "no limit")
		return o.run
	},
}

type ordersOptions struct {
	question
	out, unfitted string
	spec, keep    bool
	within        within
}

// check says what is wrong with the flags.
func (o *ordersOptions) check() error {
	if err := o.question.check(); err != nil {
		return err
	}
	return o.within.check("orders")
}

func (o *ordersOptions) run(c *call) (int, error) {
	if err := o.check(); err != nil {
		return 0, err
	}
	if len(c.args) > 1 {
		return o.together(c)
	}
	d, err := openRecorder(c)
	if err != nil {
		return 0, err
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		var sim *risk.Simulation
		papers, p, err := gather(ctx, d.State, line, o.within.gap(1), func(p *report.Papers) []part {
			return []part{
				func(ctx context.Context) error {
					sim = setAside(ctx, p.Plan)
					return nil
				},
				decidedAgainst(p, line.settings()),
			}
		})
		if err != nil {
			return answer{}, err
		}
		if !p.Has {
			return o.noPlan(ctx, line, p, &report.Beside{})
		}
		quoteTo(papers, sim)
		written, err := o.write(d.State, papers)
		a := answer{
			code:  exitCode(p),
			early: len(papers.Early()) > 0,
			text:  func() string { return report.Written(papers, written) },
			json:  func() (string, error) { return report.WrittenJSON(papers, written, papers.Early()) },
		}
		if o.keep {
			a.keep = func() error { return keepPlan(c, d, p) }
		}
		return a, err
	})
}

// write puts the sheets into their folder and gives their paths.
func (o *ordersOptions) write(st *catalog.State, papers *report.Papers) ([]string, error) {
	papers.Spec, papers.Unfitted = o.spec, o.unfitted
	return writePages(o.folder(st, plan.Fingerprint(papers.Plan)), papers.Pages())
}

// folder is where the sheets go.
func (o *ordersOptions) folder(st *catalog.State, print string) string {
	if o.out != "" {
		return o.out
	}
	return filepath.Join(filepath.Dir(st.Job.File), "orders-"+print)
}

// gather finds the plan and everything that the papers say about it.
// The plan may be a share of gap above the cheapest; more gives other parts that are found
// meanwhile, once there is a plan.
func gather(ctx context.Context, st *catalog.State, line *progress, gap float64,
	more func(*report.Papers) []part) (*report.Papers, *plan.Plan, error) {
	set := line.settings()
	near := set
	near.Gap = gap
	plan, err := program.Solve(ctx, st, near)
	if err != nil || !plan.Has {
		return nil, plan, err
	}
	p := &report.Papers{Plan: plan, Date: now().Format(time.DateOnly), Photo: photos(st)}
	line.now("looking for the prices at which to stop, hunting, weighing what is not used")
	// What takes longest comes last: it has all the time that the others leave.
	err = sharing(ctx, append(more(p),
		func(ctx context.Context) (err error) {
			p.Stops, p.StopsWhole, err = ask.StopPrices(ctx, plan, set)
			return err
		},
		func(ctx context.Context) (err error) {
			within, cancel := program.AtMost(ctx, longestAsk)
			defer cancel()
			p.Hunted, err = ask.Hunt(within, st, nil, set)
			return err
		},
	)...)
	if err != nil {
		return nil, nil, err
	}
	return p, plan, nil
}

// decidedAgainst is what the set comes to with the owner's own pieces that are not hung, of
// which his quote tells; no other sheet does.
func decidedAgainst(p *report.Papers, set solver.Settings) part {
	return func(ctx context.Context) (err error) {
		if p.RejectedWhole = true; p.Plan.Of.Quote.Given {
			p.Rejected, p.RejectedWhole, err = ask.RejectedPieces(ctx, p.Plan, true, set)
		}
		return err
	}
}

// part is a part of an answer that the others have nothing to do with.
type part func(ctx context.Context) error

// sharing finds all parts, as many at a time as there are processors to be had. Where the
// time is limited each may take its fair share of what is left when it begins, so that none
// is left out for another; where it is up each says so.
func sharing(ctx context.Context, parts ...part) error {
	share := parallel.NewShares(ctx, len(parts), 1)
	return parallel.Do(context.WithoutCancel(ctx), len(parts), func(i int) error {
		own, done := share.Next(ctx)
		defer done()
		return parts[i](own)
	})
}

// setAside is how a plan may turn out, where the owner is quoted a sum; nil where not.
func setAside(ctx context.Context, p *plan.Plan) *risk.Simulation {
	if !p.Of.Quote.Given {
		return nil
	}
	return risk.Simulate(ctx, p, riskRuns, riskSeed)
}

// quoteTo adds up the quote to the owner, from how the plan may turn out. It has to hold:
// without its limits, or what to set aside, there is none.
func quoteTo(p *report.Papers, s *risk.Simulation) {
	if !p.Plan.Of.Quote.Given || !p.StopsWhole {
		return
	}
	if nine, whole := nineOf(s); whole {
		p.Sums = paper.OwnerQuoteOf(p.Plan, p.Stops, true, max(0, nine-p.Plan.Outlay))
	}
}

// photos reads pictures from the folder of the file in which a piece stands, and from nowhere
// else.
func photos(st *catalog.State) func(*catalog.Piece, string) template.URL {
	return func(p *catalog.Piece, name string) template.URL {
		root, err := os.OpenRoot(st.PhotoFolder(p))
		if err != nil {
			return ""
		}
		defer root.Close()
		url, err := page.Thumbnail(root, filepath.FromSlash(name))
		if err != nil {
			return ""
		}
		return url
	}
}

// writePages writes sheets into a folder and gives their paths. Each is written beside
// its place and then put there whole; those of an earlier plan are written over, and
// before the first is written it is known that all may be.
func writePages(folder string, pages []*page.Page) ([]string, error) {
	var paths []string
	for _, p := range pages {
		path := filepath.Join(folder, p.Name+".html")
		if err := disk.Replaceable(path, page.Mark); err != nil {
			return nil, err
		}
		paths = append(paths, path)
	}
	if err := disk.Folder(folder); err != nil {
		return nil, err
	}
	for i, p := range pages {
		text, err := p.HTML()
		if err != nil {
			return nil, err
		}
		if err := disk.Replace(paths[i], text, page.Mark); err != nil {
			return nil, err
		}
	}
	return paths, nil
}
