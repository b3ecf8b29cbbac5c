package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"brightset/catalog/sheet"
	"brightset/cmd/brightset/internal/report"

	"github.com/spf13/pflag"
)

var importCommand = command{
	name: "import", args: "[JOB] FILE.csv", most: 2,
	summary: "read pieces, leads, findings, quotes or prices from a spreadsheet",
	text: "Reads a table saved as CSV and writes it as a new TOML file beside the job, which the job then includes with " +
		"one line. Your own files are not changed, and nothing is written unless the whole table is in order." +
		"\nThe first row names the columns, by the keys of the job's file; brightset export shows them all. Pieces need " +
		"id, fits, kind and metal, leads chance as well; findings need piece and defect, quotes piece, plater and cost; " +
		"prices plater, level, part (or one piece) and price, with a metal where they differ. " +
		"Several slots in one cell are parted by |. Findings and quotes may be about any piece of the job, whichever file " +
		"it is in." +
		"\nCommas, semicolons and tabs between the cells are told apart; with the latter two, decimals may be written with " +
		"a comma. A cell with an apostrophe before it is taken as it stands: '1-2." +
		"\nWith --off the table is a list of what came off the object: its originals that are the customer's are " +
		"the object's own (off = true), spares are those whose off column says false." +
		"\nWith --replace a table that was changed is imported again over the file made of it before. No other file is " +
		"ever overwritten.",
	setup: func(flags *pflag.FlagSet) action {
		var o importOptions
		flags.StringVar(&o.what, "what", "pieces", "the `TABLE`: pieces, leads, findings, quotes or prices")
		flags.StringVar(&o.out, "out", "", "the `FILE` to write (default: the table's name with .toml, in the job's folder)")
		flags.BoolVar(&o.replace, "replace", false, "write the file anew if an earlier import made it")
		flags.StringVar(&o.delimiter, "delimiter", "", "what stands between the cells, if it can't be told: `NAME`, which "+
			"is comma, semicolon or tab")
		flags.BoolVar(&o.off, "off", false, "the customer's originals in the table came off the object, but those whose off "+
			"column says false")
		flags.BoolVar(&o.comma, "decimal-comma", false, "decimals are written 0,5 though the cells are parted by commas")
		return o.run
	},
}

type importOptions struct {
	what, out, delimiter string
	replace, comma, off  bool
}

// errReported: everything that is wrong has been said already.
var errReported = errors.New("reported")

func (o *importOptions) run(c *call) (int, error) {
	if len(c.args) == 0 {
		return 0, usageError{"import needs a table; type: brightset import FILE.csv --what pieces"}
	}
	what, err := sheet.ParseWhat(o.what)
	if err != nil {
		return 0, usageError{err.Error()}
	}
	delimiter, err := sheet.ParseDelimiter(o.delimiter)
	if err != nil {
		return 0, usageError{err.Error()}
	}
	table := c.args[len(c.args)-1]
	c.args = c.args[:len(c.args)-1]
	job, err := jobPath(c)
	if err != nil {
		return 0, err
	}
	out := o.out
	if out == "" {
		out = filepath.Join(filepath.Dir(job), strings.TrimSuffix(filepath.Base(table), filepath.Ext(table))+".toml")
	}
	if !strings.HasSuffix(out, ".toml") || filepath.Clean(out) == filepath.Clean(job) {
		return 0, usageError{fmt.Sprintf("%q is no place for the new file; type: --out new-pieces.toml", out)}
	}
	how := sheet.Reading{Delimiter: delimiter, DecimalComma: o.comma, Off: o.off}
	done, err := sheet.Import(job, what, table, out, how, o.replace)
	var problems sheet.Problems
	if errors.As(err, &problems) {
		o.tell(c, table, problems)
		fmt.Fprintln(c.err, "nothing was written")
		return 0, errReported
	}
	if err != nil {
		return 0, err
	}
	o.tell(c, table, done.Warnings)
	return exitAnswered, c.print(o.next(job, done))
}

// mostTold is how many problems of one table are shown.
const mostTold = 200

func (o *importOptions) tell(c *call, table string, problems []sheet.Problem) {
	for _, p := range problems[:min(len(problems), mostTold)] {
		fmt.Fprint(c.err, report.Paragraph("", "    ", table+", "+p.String()))
	}
	if more := len(problems) - mostTold; more > 0 {
		fmt.Fprintf(c.err, "and %d more\n", more)
	}
}

// next says what was written and what is left to do.
func (o *importOptions) next(job string, done *sheet.Imported) string {
	rows := "1 row"
	if done.Rows != 1 {
		rows = fmt.Sprintf("%d rows", done.Rows)
	}
	text := fmt.Sprintf("wrote %s: %s\n", done.Path, rows)
	if done.Included {
		return text + fmt.Sprintf("%s includes it already; type: brightset check %s\n", job, job)
	}
	var names []string
	for _, name := range done.Include {
		names = append(names, fmt.Sprintf("%q", name))
	}
	line := fmt.Sprintf("  include = [%s]\n", strings.Join(names, ", "))
	if len(names) > 1 {
		return text + fmt.Sprintf("to use it, let the line at the top of %s be:\n%s", job, line)
	}
	return text + fmt.Sprintf("to use it, put this line at the top of %s, above the first [table]:\n%s", job, line)
}
