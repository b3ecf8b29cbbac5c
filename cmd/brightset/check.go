package main

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/choice"
	"brightset/model/plan"

	"github.com/spf13/pflag"
)

var checkCommand = command{
	name: "check", args: "[JOB]", most: 1,
	summary: "check the files and show what every piece could do for its slot",
	text: "Reports every mistake in the files with its line. Without mistakes it shows for every slot " +
		"the best there is by itself, what nobody does though pieces wait for it, and what is missing. With --full, or " +
		"--slot, it shows the pieces that fit, the grade each has as it lies, and everything that can be done to it with " +
		"cost, breakage, grade and days; and what is out, and why.",
	setup: func(flags *pflag.FlagSet) action {
		var o checkOptions
		o.jsonFlag(flags, "write the answer as one JSON document")
		flags.StringVar(&o.slot, "slot", "", "show this `SLOT` alone, and all of it")
		flags.BoolVar(&o.full, "full", false, "show all that can be done with every piece, and what is out")
		flags.BoolVar(&o.words, "words", false, "instead, the words of faults, works, metals and slots, with what "+
			"else they are called")
		flags.BoolVar(&o.spec, "spec", false,
			"instead, as information: what open plating standards ask of each slot's pieces")
		flags.Float64Var(&o.current, "current", 0, "with --spec: `A/DM2` to reckon times with where no source gives a "+
			"current density")
		o.flags = flags
		return o.run
	},
}

type checkOptions struct {
	form
	flags   *pflag.FlagSet
	words   bool
	slot    string
	full    bool
	spec    bool
	current float64
}

func (o *checkOptions) run(c *call) (int, error) {
	if o.flags.Changed("current") && (!(o.current > 0) || o.current > 1000 || !o.spec) {
		return 0, usageError{"--current is a current density above 0 and at most 1000, in A/dm2, and goes with --spec; " +
			"type: brightset check --spec --current 4"}
	}
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	if o.words {
		return exitAnswered, o.show(c, answer{text: func() string { return report.TradeWords(st) },
			json: func() (string, error) { return report.TradeWordsJSON(st) }})
	}
	only := -1
	if o.slot != "" {
		if only, err = slotNamed(st, o.slot); err != nil {
			return 0, err
		}
	}
	choices := choice.Choices(st)
	if o.spec {
		return o.answerSpec(c, st, choices, only)
	}
	outs := choice.Exclusions(st)
	return exitAnswered, o.show(c, answer{
		text: func() string {
			if only < 0 && !o.full {
				return report.CheckShort(st, choices)
			}
			return report.Check(st, choices, outs, only)
		},
		json: func() (string, error) { return report.CheckJSON(st, choices, outs, only) },
	})
}

// answerSpec shows what open standards ask.
func (o *checkOptions) answerSpec(c *call, st *catalog.State, choices [][]plan.Choice, only int) (int, error) {
	return exitAnswered, o.show(c, answer{
		text: func() string { return report.Spec(st, choices, only, o.current) },
		json: func() (string, error) { return report.SpecJSON(st, choices, only, o.current) },
	})
}

// slotNamed finds a slot by its id, or by its name where one alone has it, or says which
// one may have been meant.
func slotNamed(st *catalog.State, id string) (int, error) {
	ids := make([]string, len(st.Slots))
	named, several := -1, false
	for i := range st.Slots {
		ids[i] = st.Slots[i].ID
		if ids[i] == id {
			return i, nil
		}
		if strings.EqualFold(st.Slots[i].Name, id) {
			named, several = i, named >= 0
		}
	}
	if named >= 0 && !several {
		return named, nil
	}
	return 0, usageError{fmt.Sprintf("no slot %q%s", id, hint(id, ids, "brightset check --full, which shows all"))}
}
