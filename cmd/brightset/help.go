package main

import (
	"fmt"
	"strings"

	"brightset/cmd/brightset/internal/report"

	"github.com/spf13/pflag"
)

var helpCommand = command{
	name: "help", args: "[COMMAND]", most: 1,
	summary: "show what there is, or how one command is used",
}

// init breaks the circle between the list of commands and the command that
// shows it.
func init() { helpCommand.setup = func(*pflag.FlagSet) action { return help } }

func help(c *call) (int, error) {
	if len(c.args) == 0 {
		return exitAnswered, c.print(overview())
	}
	cmd, err := find(c.args[0])
	if err != nil {
		return 0, err
	}
	return exitAnswered, c.print(helpOn(cmd))
}

// overview lists the commands and the exit codes.
func overview() string {
	var b strings.Builder
	b.WriteString(report.Paragraph("", "", "brightset finds the cheapest way to hang a complete set of bright trim: "+
		"which piece goes in which slot, what is done to it and by whom, and what is held in reserve."))
	b.WriteString("\nusage: brightset COMMAND [flags] [arguments]\n\n")
	for _, cmd := range commands() {
		b.WriteString(report.Paragraph(fmt.Sprintf("  %-11s", cmd.name), strings.Repeat(" ", 13), cmd.summary))
	}
	b.WriteString(`
JOB is a job file, or a folder with a job.toml in it; left out: ./job.toml.
More on a command: brightset help COMMAND

exit codes: 0 answered, 1 failed, 2 usage, 3 mistakes in the input,
4 nothing meets the target within the limits, 5 stopped early with a plan that
is not proven to be the cheapest, 130 interrupted
`)
	return b.String()
}

// helpOn is the help of one command.
func helpOn(cmd command) string {
	var b strings.Builder
	usage := "usage: brightset " + cmd.name
	flags := pflag.NewFlagSet(cmd.name, pflag.ContinueOnError)
	flags.SortFlags = false
	cmd.setup(flags)
	if flags.HasFlags() {
		usage += " [flags]"
	}
	if cmd.args != "" {
		usage += " " + cmd.args
	}
	b.WriteString(usage + "\n\n" + report.Paragraph("", "", cmd.name+": "+cmd.summary))
	if cmd.text != "" {
		b.WriteString("\n")
		for _, par := range strings.Split(cmd.text, "\n") {
			if part := strings.Split(par, "\t"); len(part) == 3 { // a word and what it means
				b.WriteString(report.Paragraph(fmt.Sprintf("  %-24s", part[1]), strings.Repeat(" ", 26), part[2]))
				continue
			}
			b.WriteString(report.Paragraph("", "", par))
		}
	}
	if flags.HasFlags() {
		b.WriteString("\nflags:\n")
		flags.VisitAll(func(f *pflag.Flag) {
			value, text := pflag.UnquoteUsage(f)
			if f.Value.Type() == "bool" {
				value = ""
			}
			b.WriteString(report.Paragraph(fmt.Sprintf("  %-17s ", strings.TrimSpace("--"+f.Name+" "+value)),
				strings.Repeat(" ", 20), text))
		})
	}
	return b.String()
}
