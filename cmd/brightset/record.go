package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"brightset/catalog/event"
	"brightset/cmd/brightset/internal/record"

	"github.com/spf13/pflag"
)

var recordCommand = command{
	name: "record", args: "ACTION [TARGET] [JOB]", most: 3,
	summary: "write down what happened: sent, came back, broke, bought ...",
	text:    recordHelp(),
	setup: func(flags *pflag.FlagSet) action {
		o := recordOptions{flags: flags}
		f := &o.facts
		for _, one := range []struct {
			to         *string
			name, text string
		}{
			{&f.To, "to", "the `PLATER`"},
			{&f.Slot, "slot", "the `SLOT`"},
			{&f.Work, "work", "`WORK`: as-is, clean, replate, repair-replate"},
			{&f.Level, "level", "the plater's `LEVEL`"},
			{&f.Cost, "cost", "what it costs, such as 240.00; `MONEY` for one piece"},
			{&f.Price, "price", "what was paid for all that was bought, `MONEY`"},
			{&f.From, "from", "`WHERE` it was bought, in words"},
			{&f.Freight, "freight", "freight paid on top, `MONEY`"},
			{&f.Credit, "credit", "`MONEY` that came in"},
			{&f.Grade, "grade", "`GRADE` 0 to 100, or a word such as nice"},
			{&f.Tone, "tone", "`TONE` on the CIE b* axis, or a word such as neutral"},
			{&f.Defect, "defect", "a `DEFECT` of the trade tables"},
			{&f.Severity, "severity", "`HOW` bad: light, moderate, severe"},
			{&f.Extent, "extent", "`SHARE` of the surface, 0 to 1"},
			{&f.Count, "count", "`N` of them"},
			{&f.Where, "where", "`WHERE`: face, edge, back"},
			{&f.Breakage, "breakage", "`CHANCE` that it breaks, 0 to 1"},
			{&f.Firm, "firm", "`HOW` firm: estimate, \"after strip\", firm"},
			{&f.Days, "days", "`DAYS` it takes"},
			{&f.Piece, "piece", "the `PIECE`"},
			{&f.Bundle, "bundle", "the `BUNDLE` it comes out of"},
			{&f.Fits, "fits", "`SLOTS` or parts it fits, with commas between"},
			{&f.Kind, "kind", "`KIND`: original, old-stock, reproduction"},
			{&f.Metal, "metal", "`METAL`, or unknown"},
			{&f.Owner, "owner", "`WHOSE`: customer, shop, or a vendor's id"},
			{&f.Quantity, "quantity", "`N` alike in the bag"},
			{&f.Box, "box", "`N` in a box, of what is sold by the box alone; --cost is then a box's"},
			{&f.Chance, "chance", "`CHANCE` that a lead comes, 0 to 1"},
			{&f.Name, "name", "`NAME` in words"},
			{&f.Tag, "tag", "`TAG` tied to it"},
			{&f.Place, "place", "`WHERE` it lies"},
			{&f.Marks, "marks", "`MARKS` scribed on it"},
			{&f.Value, "value", "what a customer's piece would fetch, `MONEY`"},
			{&f.Part, "part", "what pieces for this slot are made for, a `PART`"},
			{&f.Area, "area", "the `AREA` that shines, such as \"3.2 dm2\""},
			{&f.Weight, "weight", "how much it counts in the mean grade, `N`"},
			{&f.Goal, "target", "the `TARGET` of this slot alone"},
			{&f.Floor, "floor", "`GRADE` that has to hang in this slot, 0 to 100 or a word"},
			{&f.With, "with", "the `SLOT` that is seen together with it"},
			{&f.Minimum, "minimum", "his least charge for a lot, `MONEY`"},
			{&f.Hourly, "hourly", "what an hour of his costs, `MONEY`"},
			{&f.Least, "least", "his least charge for a piece, `MONEY`"},
			{&f.StripFee, "strip-fee", "what he takes for a piece sent back after stripping, `MONEY`"},
			{&f.Rate, "rate", "what he takes for a dm2, `MONEY`"},
			{&f.Works, "works", "`WORKS` that he does, with commas between"},
			{&f.Low, "low", "the price it may be had for at best, `MONEY`"},
			{&f.High, "high", "the price it may be had for at worst, `MONEY`"},
			{&f.Give, "give", "the `PIECE` that is given"},
			{&f.Get, "get", "the `PIECE` that is taken for it"},
			{&f.Slots, "slots", "`SLOTS` that are seen together, with commas between"},
			{&f.GradeWithin, "grade-within", "how far their grades may be apart, `POINTS`"},
			{&f.ToneWithin, "tone-within", "how far their colour casts may be apart, `TONE`"},
			{&f.Budget, "budget", "all that may be spent, `MONEY`"},
			{&f.Mean, "mean", "`GRADE` that the set has to have on average, 0 to 100"},
			{&f.Completion, "completion", "`CHANCE` asked for that no slot needs a rescue, 0 to 1"},
			{&f.What, "what", "`KIND` of what is taken away: piece, slot, plater, vendor ..."},
			{&f.On, "on", "the `DAY` it happened, 2027-01-31 (default: today)"},
			{&f.Reason, "reason", "`WHY`, in words"},
		} {
			flags.StringVar(one.to, one.name, "", one.text)
		}
		flags.BoolVar(&f.NewLot, "new-lot", false, "it goes by itself, though something else goes to the plater that day")
		flags.BoolVar(&f.SamePlater, "same-plater", false, "they have to go to one plater")
		flags.BoolVar(&f.FreshAlike, "fresh-alike", false, "all of them have to be freshly finished, or none")
		flags.BoolVar(&f.Harmless, "harmless", false, "the fault does not keep the piece from hanging")
		flags.BoolVar(&f.StripFirst, "strip-first", false, "he is to strip it and name his price, though one is firm")
		flags.BoolVar(&f.Anyway, "anyway", false, "it happened, though something else was agreed")
		o.jsonFlag(flags, "write the answer as one JSON document")
		return o.run
	},
}

// listRecord is typed, as an action is, to see what was recorded.
const listRecord = "list"

// recordHelp lists the actions.
func recordHelp() string {
	var b strings.Builder
	b.WriteString("What is written down goes to a journal beside the job's file, safely on disk before it is confirmed; " +
		"the files themselves stay as you wrote them. Every command then goes on from where things stand.\n")
	b.WriteString("--on says when it happened. What moves a piece, or changes the same thing of it, can't come before " +
		"what did so last; a day after today may be no more than a year past the job's start and all that is recorded, so " +
		"that a job can be tried out ahead of time, and no day more than ten years before them. The latest day recorded, a " +
		"note's too, is the day on which everything is decided.\n")
	b.WriteString("The actions, and the flags each takes; --on, --reason and --json go with all:")
	for _, a := range record.Actions {
		var flags []string
		for _, f := range strings.Fields(a.Uses) {
			flags = append(flags, "--"+f)
		}
		text := a.Says
		if len(flags) > 0 {
			text += ": " + strings.Join(flags, " ")
		}
		fmt.Fprintf(&b, "\n\t%s %s\t%s", a.Name, a.Target, text)
	}
	fmt.Fprintf(&b, "\n\t%s\ttake the last one back\n\t%s\tbring it back again\n\t%s\tshow all that was recorded",
		event.Undo, event.Redo, listRecord)
	return b.String()
}

// noAction says that nothing that happens is called so, and which action was meant: the one that
// comes after what it happened to, or the one that is most alike.
func noAction(name string, rest []string) error {
	if len(rest) > 0 {
		if a, ok := record.Find(rest[0]); ok {
			return usageError{fmt.Sprintf("no action is called %q; what happened comes first: brightset record %s %s", name,
				a.Name, record.InShell(name))}
		}
	}
	names := append([]string{string(event.Undo), string(event.Redo), listRecord}, record.Names()...)
	return usageError{fmt.Sprintf("no action is called %q%s", name, hint(name, names, "brightset help record"))}
}

type recordOptions struct {
	form
	facts record.Facts
	flags *pflag.FlagSet
}

func (o *recordOptions) run(c *call) (int, error) {
	if len(c.args) == 0 {
		return 0, usageError{"what happened? type: brightset record ACTION TARGET; the actions: brightset help record"}
	}
	name := c.args[0]
	c.args = c.args[1:]
	if turn := event.Action(name); turn.Turns() || name == listRecord {
		if err := o.onlyFor(name, ""); err != nil {
			return 0, err
		}
		if name == listRecord {
			return o.list(c)
		}
		return o.turn(c, turn)
	}
	a, ok := record.Find(name)
	if !ok {
		return 0, noAction(name, c.args)
	}
	if len(c.args) == 0 {
		return 0, usageError{fmt.Sprintf("which %s? type: brightset record %s %s%s", strings.ToLower(a.Target), a.Name,
			strings.ReplaceAll(a.Target, " ", "-"), o.needed(a))}
	}
	o.facts.Target = c.args[0]
	c.args = c.args[1:]
	if strings.HasSuffix(o.facts.Target, ",") {
		return 0, usageError{fmt.Sprintf("%q ends with a comma; several pieces are written with commas and no spaces "+
			"between, like crest-1,crest-2", o.facts.Target)}
	}
	if err := o.onlyFor(string(a.Name), a.Uses); err != nil {
		return 0, err
	}
	return o.do(c, a)
}

// needed are the flags an action has to have, as they are typed.
func (o *recordOptions) needed(a *record.Action) string {
	text := ""
	for _, name := range strings.Fields(a.Needs) {
		value, _ := pflag.UnquoteUsage(o.flags.Lookup(name))
		text += fmt.Sprintf(" --%s %s", name, value)
	}
	return text
}

// onlyFor refuses flags that an action has no use for, and misses those it needs.
func (o *recordOptions) onlyFor(name, uses string) error {
	known := append(strings.Fields(uses), "json")
	if _, ok := record.Find(name); ok {
		known = append(known, "on", "reason")
	}
	var wrong error
	o.flags.Visit(func(f *pflag.Flag) {
		if f.Value.String() == "" && wrong == nil {
			wrong = usageError{fmt.Sprintf("--%s is empty; give it a value, or leave it out", f.Name)}
		}
		if !slices.Contains(known, f.Name) && wrong == nil {
			wrong = usageError{fmt.Sprintf("%s has no use for --%s; type: brightset help record", name, f.Name)}
		}
	})
	if wrong != nil {
		return wrong
	}
	if a, ok := record.Find(name); ok {
		for _, f := range strings.Fields(a.Needs) {
			if !o.flags.Changed(f) {
				return usageError{fmt.Sprintf("%s needs --%s; type: brightset record %s %s%s", name, f, name,
					strings.ReplaceAll(a.Target, " ", "-"), o.needed(a))}
			}
		}
	}
	if on := o.facts.On; on != "" {
		if _, err := time.Parse(time.DateOnly, on); err != nil {
			return usageError{fmt.Sprintf("--on %q is no day; write it as 2027-01-31", on)}
		}
	}
	return nil
}
