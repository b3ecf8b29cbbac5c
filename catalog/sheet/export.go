package sheet

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"brightset/catalog"
)

// Writing says how a file is to be written. The zero value is plain CSV.
type Writing struct {
	Semicolon    bool // ; between the cells
	DecimalComma bool // 0,5 instead of 0.5; goes with Semicolon
	Mark         bool // a byte-order mark, for spreadsheets that need one
}

// Export writes a table of the job's pieces; the shop's are in another file.
// Only what was written down is in it, not what follows from it.
func Export(st *catalog.State, w What, how Writing) (string, error) {
	var b bytes.Buffer
	if how.Mark {
		b.WriteString("\xef\xbb\xbf")
	}
	out := csv.NewWriter(&b)
	out.UseCRLF = true
	if how.Semicolon {
		out.Comma = ';'
	}
	rows := [][]string{Columns(w)}
	if w == Prices {
		rows = append(rows, priceRows(st)...)
	}
	for i := range st.Pieces {
		if p := &st.Pieces[i]; !p.InShop {
			if err := unlistable(st, p, w); err != nil {
				return "", err
			}
			rows = append(rows, rowsOf(st, p, w)...)
		}
	}
	for n, cells := range rows {
		for i, c := range cells {
			if f := columnsOf[w][i].form; n > 0 {
				if how.DecimalComma && f.isNumber() && plainNumber.MatchString(c) {
					c = strings.Replace(c, ".", ",", 1)
				}
				c = guard(c, f)
			}
			cells[i] = c
		}
		if err := out.Write(cells); err != nil {
			return "", err
		}
	}
	out.Flush()
	return b.String(), out.Error()
}

func rowsOf(st *catalog.State, p *catalog.Piece, w What) (rows [][]string) {
	switch w {
	case Pieces:
		return [][]string{pieceRow(st, p)}
	case Leads:
		if p.Chance < catalog.One {
			return [][]string{pieceRow(st, p)}
		}
	case Findings:
		for i := range p.Findings {
			f := &p.Findings[i]
			rows = append(rows, findingRow(st, p, f))
		}
	case Quotes:
		for i := range p.Quotes {
			rows = append(rows, quoteRow(st, p, &p.Quotes[i]))
		}
	}
	return rows
}

// findingRow leaves out an extent that is the defect's usual one, so that it
// goes on following the trade tables.
func findingRow(st *catalog.State, p *catalog.Piece, f *catalog.Finding) []string {
	d := &st.Tables.Defects[f.Defect]
	extent := ""
	if f.Extent != d.Usual {
		extent = catalog.FormatMicro(f.Extent)
	}
	var done []string
	for _, w := range f.Done {
		done = append(done, st.Tables.Works[w].Name)
	}
	return []string{p.ID, f.ID, d.Name, f.Severity.String(), extent, strconv.Itoa(f.Count), string(f.Where),
		strings.Join(done, "|"), given(f.Harmless, strconv.FormatBool)}
}

func pieceRow(st *catalog.State, p *catalog.Piece) []string {
	owner := map[catalog.Side]string{catalog.Customers: "customer", catalog.Shops: "shop"}[p.Side]
	if p.Vendor != catalog.None {
		owner = st.Vendors[p.Vendor].ID
	}
	metal, bundle, box, chance, price := "unknown", "", "", "", p.Price
	if p.Metal != catalog.None {
		metal = st.Tables.Metals[p.Metal].Name
	}
	if p.Bundle != catalog.None {
		if b := &st.Bundles[p.Bundle]; b.Box > 0 {
			box, price = strconv.Itoa(b.Box), b.Price
		} else {
			bundle = b.ID
		}
	}
	if p.Chance < catalog.One {
		chance = catalog.FormatMicro(p.Chance)
	}
	name := p.Name
	if name == p.ID {
		name = ""
	}
	return []string{
		p.ID, strings.Join(fits(st, p), "|"), string(p.Kind), owner, metal, strconv.Itoa(p.Quantity),
		said(name), said(p.Tag), said(p.Place), said(p.Marks), said(p.Note), strings.Join(p.Photos, "|"),
		amount(price), amount(p.Value), bundle, box, chance, given(p.Days, strconv.Itoa),
		given(p.Grade, catalog.FormatCenti), given(p.Tone, catalog.FormatCenti), given(p.Fresh, strconv.FormatBool),
		yes(p.Weak), yes(p.Tried), yes(p.Off),
		strings.Join(slotIDs(st, p.Fitted), "|"),
	}
}

// fits are the slots a piece fits without handwork; a part in place of the slots
// that have it, if it fits several of them and none is missing.
func fits(st *catalog.State, p *catalog.Piece) (out []string) {
	byHand, can, slots := map[int]bool{}, map[int]bool{}, map[string]int{}
	for _, f := range p.Fit {
		byHand[f.Slot] = true
	}
	for _, s := range p.Fits {
		can[s] = !byHand[s]
	}
	for i := range st.Slots {
		if slots[st.Slots[i].Part]++; !can[i] {
			slots[st.Slots[i].Part] = -len(st.Slots)
		}
	}
	for _, s := range p.Fits {
		name := st.Slots[s].ID
		if part := st.Slots[s].Part; slots[part] > 1 {
			name = part
		}
		if can[s] && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// unlistable finds a name that would come back as another one from a cell that
// holds several.
func unlistable(st *catalog.State, p *catalog.Piece, w What) error {
	if w != Pieces && (w != Leads || p.Chance == catalog.One) {
		return nil
	}
	for _, name := range slices.Concat(fits(st, p), p.Photos) {
		if strings.Contains(name, "|") || strings.TrimSpace(name) != name {
			return fmt.Errorf("%q of piece %q can't stand in a table, where | parts several names and spaces around them "+
				"don't count; give it another name", name, p.ID)
		}
	}
	return nil
}

// ByHand are the ids of the job's pieces that are made to fit by handwork, which
// a table of pieces doesn't hold.
func ByHand(st *catalog.State, w What) (ids []string) {
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if !p.InShop && len(p.Fit) > 0 && (w == Pieces || w == Leads && p.Chance < catalog.One) {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

// said is a free text, or nothing where it is all spaces.
func said(s string) string {
	if strings.TrimSpace(s) == "" {
		return ""
	}
	return s
}

func quoteRow(st *catalog.State, p *catalog.Piece, q *catalog.Quote) []string {
	day := ""
	if q.Date.Set {
		day = q.Date.V.Format("2006-01-02")
	}
	return []string{
		p.ID, q.ID, st.Platers[q.Plater].ID, q.Work, q.Level, catalog.FormatMoney(q.Cost), string(q.Firm),
		given(q.Breakage, catalog.FormatMicro), given(q.Refused, catalog.FormatMicro),
		given(q.Grade, catalog.FormatCenti), given(q.Tone, catalog.FormatCenti), given(q.Fresh, strconv.FormatBool),
		given(q.Days, strconv.Itoa), given(q.Low, catalog.FormatMoney), given(q.High, catalog.FormatMoney), day,
	}
}

// given is a value if somebody gave it.
func given[T any](v catalog.Val[T], format func(T) string) string {
	if !v.Set {
		return ""
	}
	return format(v.V)
}

// yes is a flag that stands only where it holds.
func yes(flag bool) string {
	if flag {
		return "true"
	}
	return ""
}

func amount(c catalog.Cents) string {
	if c == 0 {
		return ""
	}
	return catalog.FormatMoney(c)
}

// ParseWhat reads the name of a kind of table.
func ParseWhat(s string) (What, error) {
	var names []string
	for _, w := range All {
		if string(w) == s {
			return w, nil
		}
		names = append(names, string(w))
	}
	if best := catalog.Closest(s, names); best != "" {
		return "", fmt.Errorf("no table %q; did you mean %q?", s, best)
	}
	return "", fmt.Errorf("no table %q; write one of %s", s, strings.Join(names, ", "))
}
