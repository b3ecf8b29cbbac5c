package main

import (
	"fmt"
	"io"
	"strings"
)

// writeMarkdown writes the tables with what somebody needs to repeat them.
func (t *table) writeMarkdown(opt *options, field []*entrant) error {
	return writeFile(opt.markdown, func(out io.Writer) {
		fmt.Fprint(out, "# Race\n\nbrightset and general solvers on the same seeded jobs, to the same proof: nothing\n"+
			"can be cheaper by a cent. Everybody gets the same program, one column per line\nthat is left "+
			"after dominance.\n\n")
		fmt.Fprintf(out, "Repeat it with `%s`.\n\n", opt.command())
		writeMachine(out, field)
		fmt.Fprintf(out,
			"- %g seconds of wall clock per solve, %d seeds per family, %d thread(s) for brightset and cbc\n\n",
			opt.limit.Seconds(), opt.seeds, opt.threads)
		writePiped(out, head, t.rows)
		fmt.Fprintln(out)
		writePiped(out, ratioHead, t.ratios)
		fmt.Fprintf(out, "\n%s.\n\n", t.agree)
		if len(t.faults) > 0 {
			fmt.Fprintf(out, "%s\n\n", disqualified)
			for _, f := range t.faults {
				fmt.Fprintln(out, "- "+f)
			}
			fmt.Fprintln(out)
		}
		for _, n := range notes {
			fmt.Fprintln(out, "- "+n)
		}
	})
}

// command is the command line that repeats what was done.
func (o *options) command() string {
	parts := []string{"go run ./cmd/race"}
	if o.growth {
		parts = append(parts, "-growth")
	}
	if o.questions {
		parts = append(parts, fmt.Sprintf("-questions -seeds %d -limit %g", o.seeds, o.limit.Seconds()))
		if o.familyList != "" {
			parts = append(parts, fmt.Sprintf("-family %q", o.familyList))
		}
		if o.programs != "" {
			parts = append(parts, "-program "+o.programs)
		}
		return strings.Join(parts, " ")
	}
	parts = append(parts, fmt.Sprintf("-seeds %d -limit %g -threads %d", o.seeds, o.limit.Seconds(), o.threads))
	if o.familyList != "" && !o.growth {
		parts = append(parts, "-family "+o.familyList)
	}
	if len(o.solvers) > 0 {
		parts = append(parts, "-solvers "+strings.Join(o.solvers, ","))
	}
	return strings.Join(parts, " ")
}
