// Package page writes one self-contained HTML file from plain blocks: no script, no
// outside reference, a policy that allows nothing but the page's own style and its
// pictures. Whatever a block says is escaped; only charts, which are written by this
// program, go in as they are.
package page

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"strings"
)

// Page is one sheet that stands alone.
type Page struct {
	Name   string // of the file, without .html
	Title  string
	Sub    string   // under the title, may be empty
	From   []string // who sends it, line by line
	Job    string   // at the foot of every page, as are
	Date   string
	Plan   string // the fingerprint of the plan
	Wide   bool   // for the screen first: wider than paper
	Pocket bool   // a card to carry, of A6
	Dense  bool   // set closely, to stay on one sheet of paper
	Blocks []Block
}

// Block is one part of a page: of its fields one is used, but a heading may stand over
// any.
type Block struct {
	Heading string
	ID      string // to be linked to, of the heading
	New     bool   // begins on a new page of paper
	Text    []string
	List    []string
	Ticks   []string // with a box to tick
	Grid    *Grid
	Card    *Card
	Cards   []*Card // side by side
	Chart   template.HTML
	Signs   []string // lines to be signed, with what stands under each
	Links   []Link
	Small   []string // notes in small type
	Care    []string // cautions
}

// Link goes to another block of the page.
type Link struct{ To, Text string }

// Grid is a table. Columns in Right hold numbers.
type Grid struct {
	Caption string
	Heads   []string
	Right   []bool
	Tight   []bool // columns that are not to be wrapped
	Rows    [][]string
	Foot    [][]string
	Photos  []Photo // per row, in its first cell; empty where no row has one
}

// Photo is a picture and what it shows; none where URL is empty.
type Photo struct {
	URL template.URL
	Of  string
}

// Card is one piece on a work order or beside others.
type Card struct {
	Title   string
	Mark    string // a word in a frame: "advised"
	Photo   template.URL
	PhotoOf string // what it shows
	Facts   []Fact
	Lists   []Titled
}

// Fact is a word and what it is.
type Fact struct{ What, Is string }

// Titled is a list under its own words.
type Titled struct {
	What  string
	Items []string
	Ticks bool
}

//go:embed page.css
var sheetCSS string

//go:embed dense.css
var denseCSS string

//go:embed pocket.css
var pocketCSS string

//go:embed page.html
var pageHTML string

var pageTemplate = template.Must(template.New("page").Parse(pageHTML))

// HTML writes the page.
func (p *Page) HTML() ([]byte, error) {
	var b bytes.Buffer
	err := pageTemplate.Execute(&b, struct {
		*Page
		CSS    template.CSS
		Policy string
	}{p, template.CSS(p.css()), p.Policy()})
	return b.Bytes(), err
}

func (p *Page) css() string {
	sheet, most := sheetCSS, 60
	switch {
	case p.Pocket:
		sheet, most = sheetCSS+pocketCSS, 20
	case p.Dense:
		sheet += denseCSS
	}
	return strings.ReplaceAll(sheet, "FOOT-LEFT", cssText(clipped(p.Job, most)+", "+p.Date+", plan "+p.Plan))
}

// Policy is the content security policy of the page: its own style, by hash, and pictures
// within it.
func (p *Page) Policy() string {
	sum := sha256.Sum256([]byte(p.css()))
	return fmt.Sprintf("default-src 'none'; img-src data:; style-src 'sha256-%s'; base-uri 'none'; form-action 'none'",
		base64.StdEncoding.EncodeToString(sum[:]))
}

// cssText writes a text so that a style sheet can't read anything but text in it.
func cssText(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == ' ', r == ',', r == '-', r == '.':
			b.WriteRune(r)
		case r < ' ' || r == 0x7f || r == '\uFFFD':
		case r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069, r == 0x200e, r == 0x200f:
			// would turn the rest of the line round
		default:
			fmt.Fprintf(&b, "\\%x ", r)
		}
	}
	return b.String()
}

func clipped(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-1]) + "…"
}

// NewGrid makes a table; a head that begins with ">" is of a column of numbers, with "="
// of one that is not to be wrapped.
func NewGrid(heads ...string) *Grid {
	g := &Grid{}
	for _, h := range heads {
		text, right := strings.CutPrefix(h, ">")
		text, tight := strings.CutPrefix(text, "=")
		g.Heads, g.Right, g.Tight = append(g.Heads, text), append(g.Right, right), append(g.Tight, tight)
	}
	return g
}

// Class is the class of a cell in a column, "" for none.
func (g *Grid) Class(i int) string {
	switch {
	case i < len(g.Right) && g.Right[i]:
		return "num"
	case i < len(g.Tight) && g.Tight[i]:
		return "tight"
	}
	return ""
}

// Photo is the picture of a row.
func (g *Grid) Photo(row int) Photo {
	if row < len(g.Photos) {
		return g.Photos[row]
	}
	return Photo{}
}

// Row adds a row; a line break in a cell is one on the page.
func (g *Grid) Row(cells ...string) { g.Rows = append(g.Rows, cells) }

// Sum adds a row at the foot.
func (g *Grid) Sum(cells ...string) { g.Foot = append(g.Foot, cells) }

// Mark is by what a page can be told to be one of the program's.
const Mark = `<meta name="generator" content="brightset">`
