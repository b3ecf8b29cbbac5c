// Package chart draws plain points as SVG, and gives the same numbers as a table. It
// knows nothing of the trade: labels, sums and titles are its caller's.
//
// There are four charts, each a struct that is filled in and drawn:
//
//	Frontier  what more of something costs: sums against a number
//	Dots      how a sum may turn out: equally likely outcomes as dots
//	Bars      what a sum is made of
//
// For example:
//
//	d := chart.Bars{
//		Frame:    chart.Frame{ID: "money", Title: "Where the money goes"},
//		Currency: "USD",
//		Bars:     []chart.Bar{{Label: "plating", Cents: 124050}, {Label: "credits", Cents: -3000}},
//		Total:    "in all",
//	}.Draw()
//	page.Write(d.SVG)   // goes into a page of HTML as it is
//	d.Table             // to be printed beside it: see Table
//
// A drawing with nothing to show has an empty SVG.
//
// What a drawing is made of can go through the strictest content policy: no style, no
// script, no reference to anything outside it, no font. All that comes from the caller
// is escaped, freed of control characters and of marks that turn the direction of what
// follows, and shortened where there is no room; then the whole is in a <title>, which
// browsers show where the pointer rests. Shape, dash and hatching tell apart whatever
// colour does, so it can be read in grey. The same data give the same text.
//
// A drawing is as wide as there is room, and no wider than Frame.Width: it needs no
// style for that. A page that has a style of its own and wants it larger or without the
// white under it on a narrow screen says
//
//	figure svg { display: block; width: 100%; max-width: 32rem; height: auto }
package chart

// Drawing is a chart ready to be put into a page.
type Drawing struct {
	SVG   string // the text of one <svg> element; empty if there is nothing to show
	Table Table  // the same numbers
}

// Table holds the numbers of a drawing as plain text: nothing in it is escaped, so
// whoever writes it into HTML has to do that. Sums are as Money writes them, days as
// 2027-01-31 or as a plain number. Labels are whole, however long.
type Table struct {
	Heads []string
	Right []bool     // by column: holds numbers, to be set to the right
	Rows  [][]string // each as long as Heads
}

// row adds a row; its texts come from the caller of the package.
func (t *Table) row(cells ...string) {
	for i := range cells {
		cells[i] = plain(cells[i])
	}
	t.Rows = append(t.Rows, cells)
}

// words and sums start a column of a table.
func (t *Table) words(head string) {
	t.Heads, t.Right = append(t.Heads, plain(head)), append(t.Right, false)
}
func (t *Table) sums(head string) {
	t.Heads, t.Right = append(t.Heads, plain(head)), append(t.Right, true)
}

// Frame is what all charts have in common.
type Frame struct {
	// ID begins the ids inside the drawing: ID-title and ID-desc. It has to be the only
	// one of its kind on the page. Letters, digits, "-" and "_"; anything else becomes
	// "-".
	ID string
	// Title is what the drawing shows, in a few words. It is not drawn, since a heading
	// usually stands above: it is read out to those who don't see the drawing, and shown
	// where the pointer rests.
	Title string
	// Note is a sentence or two on how to read it, read out before the numbers. May be
	// empty.
	Note string
	// Width is how wide the drawing is, in units of which letters are 16 high, and the
	// most pixels it takes up by itself. 0 means 480, so that on a narrow screen, at 340
	// pixels, letters are still 11 pixels high. From 320 to 1600.
	Width int
}

// width is Width within its limits.
func (f *Frame) width() float64 {
	if f.Width == 0 {
		return 480
	}
	return float64(min(max(f.Width, 320), 1600))
}

// Line is a sum that outcomes are held against, such as a budget.
type Line struct {
	Label string
	Cents int64
}
