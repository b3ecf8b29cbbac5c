package main

import (
	"fmt"
	"slices"
	"strings"

	"brightset/cmd/brightset/internal/record"

	"github.com/spf13/pflag"
)

var completionCommand = command{
	name: "completion", args: "SHELL", most: 1,
	summary: "write the script by which a shell completes what is typed",
	text: "SHELL is bash, zsh, fish or powershell. The script knows the commands, their flags and what can be recorded. " +
		"For bash: source <(brightset completion bash)",
}

// init breaks the circle between the list of commands and the script that names them all.
func init() { completionCommand.setup = func(*pflag.FlagSet) action { return completion } }

// shells are those there is a script for, and what writes it.
var shells = map[string]func([]completed) string{"bash": bashScript, "zsh": zshScript, "fish": fishScript,
	"powershell": powershellScript}

func completion(c *call) (int, error) {
	if len(c.args) == 0 {
		return 0, usageError{"for which shell? type: brightset completion bash, or zsh, fish, powershell"}
	}
	write, ok := shells[c.args[0]]
	if !ok {
		return 0, usageError{fmt.Sprintf("there is no script for %q%s", c.args[0],
			hint(c.args[0], []string{"bash", "fish", "powershell", "zsh"},
				"brightset completion bash, or zsh, fish, powershell"))}
	}
	return exitAnswered, c.print(write(completedWords()))
}

// completed is a command with what may follow it.
type completed struct {
	name, summary string
	flags         []string // with their two dashes
	words         []string // its first argument, where that is one of a few
}

// completedWords are the commands as they declare themselves.
func completedWords() []completed {
	var all []completed
	for _, cmd := range commands() {
		flags := pflag.NewFlagSet(cmd.name, pflag.ContinueOnError)
		cmd.setup(flags)
		one := completed{name: cmd.name, summary: cmd.summary}
		flags.VisitAll(func(f *pflag.Flag) { one.flags = append(one.flags, "--"+f.Name) })
		switch cmd.name {
		case recordCommand.name:
			one.words = append(record.Names(), listRecord, "redo", "undo")
		case helpCommand.name:
			for _, other := range commands() {
				one.words = append(one.words, other.name)
			}
		case completionCommand.name:
			one.words = []string{"bash", "fish", "powershell", "zsh"}
		}
		slices.Sort(one.flags)
		slices.Sort(one.words)
		all = append(all, one)
	}
	return all
}

func namesOf(all []completed) string {
	var names []string
	for i := range all {
		names = append(names, all[i].name)
	}
	return strings.Join(names, " ")
}

func bashScript(all []completed) string {
	var b strings.Builder
	b.WriteString("# bash completion for brightset\n" +
		"_brightset() {\n\tlocal cur=${COMP_WORDS[COMP_CWORD]} flags= words=\n" +
		"\tif [ \"$COMP_CWORD\" -eq 1 ]; then\n")
	fmt.Fprintf(&b, "\t\tCOMPREPLY=($(compgen -W \"%s\" -- \"$cur\"))\n\t\treturn\n\tfi\n"+
		"\tcase ${COMP_WORDS[1]} in\n", namesOf(all))
	for _, c := range all {
		fmt.Fprintf(&b, "\t%s) flags=\"%s\" words=\"%s\" ;;\n", c.name, strings.Join(c.flags, " "),
			strings.Join(c.words, " "))
	}
	b.WriteString("\tesac\n\tcase $cur in\n\t-*) COMPREPLY=($(compgen -W \"$flags\" -- \"$cur\")) ;;\n\t*)\n" +
		"\t\tif [ \"$COMP_CWORD\" -eq 2 ] && [ -n \"$words\" ]; then\n" +
		"\t\t\tCOMPREPLY=($(compgen -W \"$words\" -- \"$cur\"))\n\t\telse\n" +
		"\t\t\tCOMPREPLY=($(compgen -f -- \"$cur\"))\n\t\tfi ;;\n\tesac\n}\ncomplete -o filenames -F _brightset brightset\n")
	return b.String()
}

func zshScript(all []completed) string {
	var b strings.Builder
	b.WriteString("#compdef brightset\n_brightset() {\n\tlocal -a flags first\n\tif (( CURRENT == 2 )); then\n")
	fmt.Fprintf(&b, "\t\tcompadd -- %s\n\t\treturn\n\tfi\n\tcase $words[2] in\n", namesOf(all))
	for _, c := range all {
		fmt.Fprintf(&b, "\t%s) flags=(%s) first=(%s) ;;\n", c.name, strings.Join(c.flags, " "), strings.Join(c.words, " "))
	}
	b.WriteString("\tesac\n\tif [[ $PREFIX == -* ]]; then\n\t\tcompadd -- $flags\n" +
		"\telif (( CURRENT == 3 && $#first )); then\n\t\tcompadd -- $first\n\telse\n\t\t_files\n\tfi\n}\n" +
		"compdef _brightset brightset\n")
	return b.String()
}

func fishScript(all []completed) string {
	var b strings.Builder
	b.WriteString("# fish completion for brightset\n")
	for _, c := range all {
		fmt.Fprintf(&b, "complete -c brightset -f -n __fish_use_subcommand -a %s -d '%s'\n", c.name,
			strings.ReplaceAll(c.summary, "'", `\'`))
		for _, f := range c.flags {
			fmt.Fprintf(&b, "complete -c brightset -n '__fish_seen_subcommand_from %s' -l %s\n", c.name, f[2:])
		}
		if len(c.words) > 0 {
			fmt.Fprintf(&b, "complete -c brightset -n '__fish_seen_subcommand_from %s; "+
				"and test (count (commandline -opc)) -eq 2' -a '%s'\n", c.name, strings.Join(c.words, " "))
		}
	}
	return b.String()
}

func powershellScript(all []completed) string {
	quoted := func(words []string) string {
		if len(words) == 0 {
			return "@()"
		}
		return "@('" + strings.Join(words, "', '") + "')"
	}
	var b strings.Builder
	b.WriteString("# PowerShell completion for brightset\n" +
		"Register-ArgumentCompleter -Native -CommandName brightset -ScriptBlock {\n" +
		"\tparam($word, $line, $at)\n\t$typed = @($line.CommandElements | ForEach-Object { $_.ToString() })\n" +
		"\t$before = if ($word) { $typed.Count - 1 } else { $typed.Count }\n\t$flags = @{\n")
	for _, c := range all {
		fmt.Fprintf(&b, "\t\t'%s' = %s\n", c.name, quoted(c.flags))
	}
	b.WriteString("\t}\n\t$first = @{\n")
	for _, c := range all {
		fmt.Fprintf(&b, "\t\t'%s' = %s\n", c.name, quoted(c.words))
	}
	b.WriteString("\t}\n\t$can = if ($before -le 1) { " + quoted(strings.Fields(namesOf(all))) + " }\n" +
		"\telseif ($word -like '-*') { $flags[$typed[1]] }\n\telseif ($before -eq 2) { $first[$typed[1]] }\n" +
		"\t$can | Where-Object { $_ -like \"$word*\" } | ForEach-Object { $_ }\n}\n")
	return b.String()
}
