// Package sheet brings pieces, findings, quotes and prices in from spreadsheets, as CSV,
// and out to them. What comes in becomes a new TOML file that a job includes,
// or an entry of its journal; nothing of the user's is rewritten.
package sheet

import "slices"

// What is one kind of table.
type What string

const (
	Pieces   What = "pieces"
	Leads    What = "leads" // pieces that may not come
	Findings What = "findings"
	Quotes   What = "quotes"
	Prices   What = "prices" // what platers ask by the piece
)

// All are the kinds of tables, in the order of the help text.
var All = []What{Pieces, Leads, Findings, Quotes, Prices}

// form is how a cell is written in TOML.
type form int

const (
	text   form = iota // quoted
	free               // quoted, kept to the last space
	money              // quoted
	number             // bare
	grade              // bare if a number, else a quoted word
	flag               // true or false
	list               // names parted by |
	date               // bare
	id                 // part of the table's name, not a key
)

func (f form) isNumber() bool { return f == money || f == number || f == grade }

// column is one key of a table, named as in the files.
type column struct {
	name string
	form form
}

var pieceColumns = []column{
	{"id", id}, {"fits", list}, {"kind", text}, {"owner", text}, {"metal", text}, {"quantity", number},
	{"name", free}, {"tag", free}, {"place", free}, {"marks", free}, {"note", free}, {"photos", list},
	{"price", money}, {"value", money}, {"bundle", text}, {"box", number}, {"chance", number}, {"days", number},
	{"grade", grade}, {"tone", grade}, {"fresh", flag}, {"weak", flag}, {"tried", flag}, {"off", flag},
	{"fitted", list},
}

var columnsOf = map[What][]column{
	Pieces: pieceColumns,
	Leads:  pieceColumns,
	Findings: {
		{"piece", id}, {"id", id}, {"defect", text}, {"severity", text}, {"extent", number}, {"count", number},
		{"where", text},
		{"done", list}, {"harmless", flag},
	},
	Quotes: {
		{"piece", id}, {"id", id}, {"plater", text}, {"work", text}, {"level", text}, {"cost", money}, {"firm", text},
		{"breakage", number}, {"refused", number}, {"grade", grade}, {"tone", grade}, {"fresh", flag}, {"days", number},
		{"low", money}, {"high", money}, {"date", date},
	},
	Prices: {{"plater", text}, {"level", text}, {"part", text}, {"metal", text}, {"price", money}},
}

// Columns are the names of a table's columns, in the order they are exported in.
func Columns(w What) []string {
	var out []string
	for _, c := range columnsOf[w] {
		out = append(out, c.name)
	}
	return out
}

func (w What) column(name string) (column, bool) {
	i := slices.IndexFunc(columnsOf[w], func(c column) bool { return c.name == name })
	if i < 0 {
		return column{}, false
	}
	return columnsOf[w][i], true
}

// needs says whether a table can't do without a column. Findings and quotes
// without an id are called after the defect and the plater.
func (w What) needs(c column) bool {
	switch w {
	case Findings:
		return c.name == "piece" || c.name == "defect"
	case Quotes:
		return c.name == "piece" || c.name == "plater" || c.name == "cost"
	case Prices:
		return c.name != "metal"
	}
	return slices.Contains([]string{"id", "fits", "kind", "metal"}, c.name) || w == Leads && c.name == "chance"
}
