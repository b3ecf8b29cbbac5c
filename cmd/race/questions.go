package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"brightset/model/seeded"
)

// questionFamilies are the jobs that are asked about: those of the race of 30 and 60
// slots, and such jobs with many trades and leads.
func questionFamilies() []seeded.Family {
	var all []seeded.Family
	for _, name := range []string{"car-30", "car-60"} {
		f, _ := seeded.Named(name)
		all = append(all, f)
		f.Name += "-trades"
		f.Platers, f.Trades, f.Leads = 5, 45, 24.0/float64(f.Slots*(f.Pieces-1)) // of the trades about a third can be made
		all = append(all, f)
	}
	return all
}

// asking is the answers of the programs to one question about the jobs of one family.
type asking struct {
	family   seeded.Family
	question *question
	of       [][]answered // per program, per seed
}

var questionHead = []string{"jobs", "question", "bar s"}

// askAll writes every job as files and puts every question to every program.
func askAll(ctx context.Context, opt *options, out io.Writer) error {
	programs, err := opt.asked(ctx)
	if err != nil {
		return err
	}
	var all []asking
	for _, f := range opt.families {
		here := make([]asking, len(questions))
		for i := range here {
			here[i] = asking{f, &questions[i], make([][]answered, len(programs))}
		}
		for seed := 1; seed <= opt.seeds; seed++ {
			folder := filepath.Join(opt.temporary, fmt.Sprintf("job-%d-%d", len(all), seed))
			if err := os.MkdirAll(folder, 0o755); err != nil {
				return err
			}
			if err := seeded.WriteFiles(seeded.Job(f, uint64(seed)), folder); err != nil {
				return err
			}
			for i := range here {
				for p, program := range programs {
					fmt.Fprintf(opt.progress, "%s, seed %d, %s: %s\n", f.Name, seed, here[i].question.name, program)
					a := here[i].question.ask(ctx, program, folder, filepath.Join(opt.temporary, "papers"), opt.limit)
					if ctx.Err() != nil {
						return errInterrupted
					}
					if a.fault != "" {
						fmt.Fprintf(out, "%s, seed %d, %s, %s: %s\n", f.Name, seed, here[i].question.name, program, a.fault)
					}
					here[i].of[p] = append(here[i].of[p], a)
				}
			}
		}
		all = append(all, here...)
	}
	return opt.writeQuestions(out, programs, all)
}

// asked are the programs that are asked: those named, and else this module's own.
func (o *options) asked(ctx context.Context) ([]string, error) {
	if o.programs != "" {
		return strings.Split(o.programs, ","), nil
	}
	path := filepath.Join(o.temporary, "brightset")
	build := exec.CommandContext(ctx, "go", "build", "-o", path, "brightset/cmd/brightset")
	if text, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("can't build brightset: %w: %s", err, text)
	}
	return []string{path}, nil
}

func (o *options) writeQuestions(out io.Writer, programs []string, all []asking) error {
	head := append([]string(nil), questionHead...)
	for i := range programs {
		label := ""
		if len(programs) > 1 {
			label = fmt.Sprintf("%d: ", i+1)
		}
		head = append(head, label+"s", "worst", "busy s", "worst", "whole", "bar kept")
	}
	var rows [][]string
	for i := range all {
		rows = append(rows, all[i].row(i%len(questions) == 0))
	}
	writeAligned(out, head, rows)
	if o.markdown == "" {
		return nil
	}
	return writeFile(o.markdown, func(w io.Writer) {
		fmt.Fprint(w, "# Questions\n\n"+
			"How long brightset takes to answer what is asked next, as a whole process started from nothing.\n\n")
		fmt.Fprintf(w, "Repeat it with `%s`.\n\n", o.command())
		writeMachine(w, entrants[:1])
		for i, p := range programs {
			if len(programs) > 1 {
				fmt.Fprintf(w, "- %d: %s\n", i+1, p)
			}
		}
		fmt.Fprintf(w, "- medians and worst of %d seed(s), wall clock and processor time (busy); "+
			"bar: what it may take, as the median; the worst no more than %d times that\n", o.seeds, worstBar)
		fmt.Fprint(w, "- bar kept: yes, by the median alone, or no\n")
		fmt.Fprintf(w, "- whole: of all runs those that answered everything within %g seconds; "+
			"the others count as they ended, marked with >\n\n", o.limit.Seconds())
		writePiped(w, head, rows)
	})
}

func (a *asking) row(first bool) []string {
	row := []string{"", a.question.name, fmt.Sprintf("%g", a.bar())}
	if first {
		row[0] = a.family.Name
	}
	for _, runs := range a.of {
		wall, busy, whole := []float64{}, []float64{}, 0
		for _, r := range runs {
			v := r.whole
			if a.question.first {
				v = r.first
			}
			wall, busy = append(wall, v), append(busy, r.busy)
			if !r.early && r.fault == "" {
				whole++
			}
		}
		early := whole < len(runs)
		row = append(row, figure{median(wall), 2*whole <= len(runs)}.String(), figure{worst(wall), early}.String(),
			figure{median(busy), 2*whole <= len(runs)}.String(), figure{worst(busy), early}.String(),
			fmt.Sprintf("%d/%d", whole, len(runs)), a.kept(wall, whole))
	}
	return row
}

// worstBar is how many times the bar of the median the worst may take.
const worstBar = 5

// kept says whether the bars are kept: that of the median, and that of the worst.
func (a *asking) kept(wall []float64, whole int) string {
	switch bar := a.bar(); {
	case median(wall) > bar || 2*whole <= len(wall):
		return "no"
	case worst(wall) > worstBar*bar || whole < len(wall):
		return "median"
	}
	return "yes"
}

// bar is what the median may take, in seconds.
func (a *asking) bar() float64 {
	if a.family.Slots > 30 {
		return a.question.bars[1]
	}
	return a.question.bars[0]
}

func worst(list []float64) float64 {
	w := list[0]
	for _, v := range list {
		w = max(w, v)
	}
	return w
}
