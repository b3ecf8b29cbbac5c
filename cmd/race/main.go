// Race lets brightset and general solvers solve the same seeded jobs to the same
// proof, and prints how long each took, how much memory it needed, and whether
// they agree. With -growth it shows how time and memory grow, with -questions
// how long it takes to answer what is asked after the plan.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
	"time"

	"brightset/model/seeded"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// options are what the command line asks for.
type options struct {
	seeds      int
	families   []seeded.Family
	familyList string        // as given
	limit      time.Duration // per solve, wall clock
	threads    int
	solvers    []string // none: all that are there
	growth     bool
	questions  bool
	programs   string // with questions: those asked, "" for the module's own
	markdown   string // file to write, "" for none
	svg        string // picture to write with growth and markdown
	keep       string // folder to keep the programs in, "" for none
	progress   io.Writer
	temporary  string
}

const usage = `race: brightset against general solvers on seeded jobs, to the same proof

go run ./cmd/race [flags]

`

// run is main without its process: it gives the exit code. 0 all went well,
// 1 failed or a solver was wrong, 2 usage, 130 interrupted.
func run(args []string, out, errs io.Writer) int {
	if len(args) > 0 && args[0] == childCommand {
		return runChild(args[1:], out, errs)
	}
	opt := options{progress: errs}
	flags := flag.NewFlagSet("race", flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.Usage = func() {
		fmt.Fprint(errs, usage)
		flags.PrintDefaults()
	}
	flags.IntVar(&opt.seeds, "seeds", 3, "solve seeds 1 to `N` of every family")
	names := flags.String("family", "", "only these families, by `NAME[,NAME]`: "+strings.Join(familyNames(), ", "))
	limit := flags.Float64("limit", 60, "`SECONDS` of wall clock for one solve")
	flags.IntVar(&opt.threads, "threads", 1, "`N` threads for brightset and cbc; HiGHS chooses for itself")
	solvers := flags.String("solvers", "", "only these solvers, by `NAME[,NAME]`: "+strings.Join(solverNames(), ", "))
	flags.BoolVar(&opt.growth, "growth", false, "instead of the race, time and memory against size")
	flags.BoolVar(&opt.questions, "questions", false,
		"instead of the race, how long brightset takes to answer what is asked after the plan")
	flags.StringVar(&opt.programs, "program", "",
		"with -questions, ask these programs, `FILE[,FILE]`, instead of this module's")
	flags.StringVar(&opt.markdown, "markdown", "", "also write the results to `FILE`, as Markdown")
	flags.StringVar(&opt.svg, "svg", "testdata/race/growth.svg",
		"with -growth and -markdown, the picture goes to `FILE`")
	flags.StringVar(&opt.keep, "keep", "", "keep the programs (MPS) in `FOLDER`")
	install := flags.Bool("install", false, "print the commands that install the other solvers, and stop")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	if *install {
		fmt.Fprint(out, installCommands)
		return 0
	}
	opt.limit = time.Duration(*limit * float64(time.Second))
	err := opt.suits(flags)
	if err == nil {
		err = opt.resolve(*names, *solvers, flags.Args())
	}
	if err != nil {
		fmt.Fprintln(errs, "race:", err)
		return 2
	}
	ctx, cancel := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer cancel()
	if err := compete(ctx, &opt, out); errors.Is(err, errInterrupted) {
		fmt.Fprintln(errs, "race:", err)
		return 130
	} else if err != nil {
		fmt.Fprintln(errs, "race:", err)
		return 1
	}
	return 0
}

// flagsOf are the flags that only some of what can be done takes notice of.
var flagsOf = map[string][]string{
	"family": {"race", "questions"}, "threads": {"race", "growth"}, "solvers": {"race", "growth"}, "keep": {"race"},
	"program": {"questions"}, "svg": {"growth"},
}

// suits refuses flags that would be of no account.
func (o *options) suits(flags *flag.FlagSet) (err error) {
	if o.growth && o.questions {
		return fmt.Errorf("-growth and -questions are two things; type one of them")
	}
	what, how := "race", "without -growth and -questions"
	switch {
	case o.questions:
		what = "questions"
	case o.growth:
		what = "growth"
	}
	flags.Visit(func(f *flag.Flag) {
		if of, some := flagsOf[f.Name]; err == nil && some && !slices.Contains(of, what) {
			if of[0] != "race" {
				how = "with -" + of[0]
			}
			err = fmt.Errorf("-%s has no meaning here; leave it out, or type it %s", f.Name, how)
		}
	})
	return err
}

// resolve turns names into what they name and checks the numbers.
func (o *options) resolve(families, solvers string, rest []string) error {
	if len(rest) > 0 {
		return fmt.Errorf("%q is not a flag; see go run ./cmd/race -help", rest[0])
	}
	if o.seeds < 1 || o.limit <= 0 || o.threads < 1 {
		return fmt.Errorf("-seeds, -limit and -threads must be more than 0")
	}
	there := seeded.Families
	if o.questions {
		there = questionFamilies()
	}
	o.families, o.familyList = there, families
	if families != "" {
		o.families = nil
		for name := range strings.SplitSeq(families, ",") {
			f, ok := familyNamed(there, name)
			if !ok {
				return fmt.Errorf("there is no family %q; there are %s", name, strings.Join(namesOf(there), ", "))
			}
			o.families = append(o.families, f)
		}
	}
	if solvers != "" {
		o.solvers = strings.Split(solvers, ",")
		for _, name := range o.solvers {
			if entrantNamed(name) == nil {
				return fmt.Errorf("there is no solver %q; there are %s", name, strings.Join(solverNames(), ", "))
			}
		}
	}
	return nil
}

func familyNames() []string { return namesOf(seeded.Families) }

func namesOf(families []seeded.Family) []string {
	var names []string
	for _, f := range families {
		names = append(names, f.Name)
	}
	return names
}

func familyNamed(families []seeded.Family, name string) (seeded.Family, bool) {
	i := slices.IndexFunc(families, func(f seeded.Family) bool { return f.Name == name })
	if i < 0 {
		return seeded.Family{}, false
	}
	return families[i], true
}

// picture is the file of the picture, "" where none is written.
func (o *options) picture() string {
	if !o.growth || o.markdown == "" {
		return ""
	}
	return o.svg
}

var errInterrupted = errors.New("interrupted; nothing was written")

// compete does what is asked in a temporary folder of its own.
func compete(ctx context.Context, opt *options, out io.Writer) error {
	dir, err := os.MkdirTemp("", "brightset-race-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	opt.temporary = dir
	if err := errors.Join(reachable(opt.markdown), reachable(opt.picture())); err != nil {
		return err
	}
	switch {
	case opt.questions:
		return askAll(ctx, opt, out)
	case opt.growth:
		return growth(ctx, opt, out)
	}
	return race(ctx, opt, out)
}
