package main

import (
	"errors"
	"fmt"
	"io"

	"brightset/catalog"

	"github.com/spf13/pflag"
)

// The exit codes.
const (
	exitAnswered    = 0
	exitFailed      = 1
	exitUsage       = 2
	exitMistakes    = 3   // in the input files
	exitInfeasible  = 4   // nothing meets the target within the limits
	exitUnproven    = 5   // stopped early, a plan in hand
	exitInterrupted = 130 // by Ctrl-C
)

// command is one thing the program does. setup declares its flags and returns
// the action, which is run after they are parsed.
type command struct {
	name    string
	args    string // the arguments, for the usage line
	most    int    // how many arguments it takes at most
	summary string // one line
	text    string // the rest of its help
	setup   func(flags *pflag.FlagSet) action
}

// action answers and returns the exit code. With an error the code is taken
// from the error.
type action func(c *call) (int, error)

// call is what an action works on.
type call struct {
	args []string
	in   io.Reader
	out  io.Writer // the answer, and nothing else
	err  io.Writer // everything else
}

// print writes the answer.
func (c *call) print(text string) error {
	if _, err := io.WriteString(c.out, text); err != nil {
		return fmt.Errorf("can't write the answer: %w", err)
	}
	return nil
}

// usageError is a mistake on the command line.
type usageError struct{ message string }

func (e usageError) Error() string { return e.message }

func commands() []command {
	return []command{newCommand, checkCommand, planCommand, whyCommand, frontierCommand, huntCommand, riskCommand,
		ordersCommand, reportCommand, recordCommand, benchCommand, learnCommand, importCommand, exportCommand,
		completionCommand,
		helpCommand, versionCommand}
}

// run is the program: args without the program's name, the answer on out,
// everything else on errs. It returns the exit code.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	c := &call{in: in, out: out, err: errs}
	code, err := dispatch(c, args)
	var mistakes *catalog.Mistakes
	var usage usageError
	switch {
	case err == nil:
		return code
	case errors.As(err, &mistakes):
		fmt.Fprintln(errs, err)
		return exitMistakes
	case errors.Is(err, errReported):
		return exitMistakes
	case errors.As(err, &usage):
		fmt.Fprintf(errs, "brightset: %s\n", err)
		return exitUsage
	}
	fmt.Fprintf(errs, "brightset: %s\n", err)
	return exitFailed
}

// dispatch finds the command, parses its flags and runs it.
func dispatch(c *call, args []string) (int, error) {
	if len(args) == 0 {
		if terminal(c.out) {
			return start(c)
		}
		return 0, usageError{"no command; type: brightset help"}
	}
	name := args[0]
	switch name {
	case "-h", "--help":
		name = "help"
	case "--version":
		name = "version"
	}
	cmd, err := find(name)
	if err != nil {
		return 0, err
	}
	flags := pflag.NewFlagSet(cmd.name, pflag.ContinueOnError)
	flags.Usage = func() {}
	flags.SetOutput(io.Discard)
	flags.SortFlags = false
	act := cmd.setup(flags)
	if err := flags.Parse(args[1:]); err != nil {
		if errors.Is(err, pflag.ErrHelp) {
			return exitAnswered, c.print(helpOn(cmd))
		}
		return 0, flagError(cmd, flags, err)
	}
	c.args = flags.Args()
	if len(c.args) > cmd.most {
		return 0, usageError{fmt.Sprintf("%q is one argument too many; type: brightset help %s", c.args[cmd.most], cmd.name)}
	}
	return act(c)
}

// find gives the command of that name, or says which one may have been meant.
func find(name string) (command, error) {
	var names []string
	for _, cmd := range commands() {
		if cmd.name == name {
			return cmd, nil
		}
		names = append(names, cmd.name)
	}
	return command{}, usageError{fmt.Sprintf("no command %q%s", name, hint(name, names, "brightset help"))}
}

// flagError turns what the flag parser found into a usage error with a hint.
func flagError(cmd command, flags *pflag.FlagSet, err error) error {
	help := "brightset help " + cmd.name
	var unknown *pflag.NotExistError
	if !errors.As(err, &unknown) {
		return usageError{err.Error() + "; type: " + help}
	}
	var names []string
	flags.VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
	name := "--" + unknown.GetSpecifiedName()
	if unknown.GetSpecifiedShortnames() != "" {
		name = "-" + unknown.GetSpecifiedName()
	}
	return usageError{fmt.Sprintf("%s has no flag %q%s", cmd.name, name, hint(name, names, help))}
}

// hint says which of the names may have been meant, or what to type to see them.
func hint(word string, names []string, help string) string {
	if best := catalog.Closest(word, names); best != "" {
		return fmt.Sprintf("; did you mean %q?", best)
	}
	return "; type: " + help
}
