package main

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"brightset/catalog/disk"
	"brightset/catalog/sheet"
	"brightset/cmd/brightset/internal/report"

	"github.com/spf13/pflag"
)

var exportCommand = command{
	name: "export", args: "[JOB]", most: 1,
	summary: "write pieces, leads, findings, quotes or prices for a spreadsheet",
	text: "Writes CSV that import reads back unchanged. Names that a spreadsheet would take for a date, a number or a " +
		"formula get an apostrophe before them." +
		"\nPieces has the leads too. Pieces of the shop's file, and what a piece can be made to fit by handwork, are not " +
		"in it.",
	setup: func(flags *pflag.FlagSet) action {
		var o exportOptions
		flags.StringVar(&o.what, "what", "pieces", "the `TABLE`: pieces, leads, findings, quotes or prices")
		flags.StringVar(&o.out, "out", "", "the `FILE` to write, which must not be there yet (default: the answer goes to "+
			"stdout)")
		flags.BoolVar(&o.how.Semicolon, "semicolon", false, "part the cells by semicolons")
		flags.BoolVar(&o.how.DecimalComma, "decimal-comma", false, "write 0,5 instead of 0.5; parts the cells by semicolons")
		flags.BoolVar(&o.how.Mark, "bom", false, "begin with a byte-order mark, which some spreadsheets need to read UTF-8")
		return o.run
	},
}

type exportOptions struct {
	what, out string
	how       sheet.Writing
}

func (o *exportOptions) run(c *call) (int, error) {
	what, err := sheet.ParseWhat(o.what)
	if err != nil {
		return 0, usageError{err.Error()}
	}
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	if ids := sheet.ByHand(st, what); len(ids) > 0 {
		fmt.Fprint(c.err, report.Paragraph("", "    ", "not in the table: what these can be made to fit by handwork, "+
			"[piece.NAME.fit.SLOT]: "+strings.Join(ids, ", ")))
	}
	o.how.Semicolon = o.how.Semicolon || o.how.DecimalComma
	text, err := sheet.Export(st, what, o.how)
	if err != nil || o.out == "" {
		if err == nil {
			err = c.print(text)
		}
		return exitAnswered, err
	}
	if err := disk.Answer(o.out); err != nil {
		return 0, err
	}
	err = disk.New(o.out, []byte(text))
	if errors.Is(err, fs.ErrExist) {
		err = fmt.Errorf("%q is there already, nothing was written; type: --out OTHER.csv", o.out)
	}
	return exitAnswered, err
}
