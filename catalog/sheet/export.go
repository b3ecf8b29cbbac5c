package sheet

import (
	"bytes"
	"encoding/csv"
	"fmt"
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
	if how.Semicolon {
		out.Comma = ';'
	}
	rows := [][]string{Columns(w)}
	for i := range st.Pieces {
		if p := &st.Pieces[i]; !p.InShop {
			rows = append(rows, rowsOf(st, p, w)...)
		}
	}
	for n, cells := range rows {
		for i, c := range cells {
			if f := columnsOf[w][i].form; n > 0 {
				if how.DecimalComma && (f == number || f == grade || f == money) && plainNumber.MatchString(c) {
					c = strings.Replace(c, ".", ",", 1)
				} else {
					c = guard(c, f == id || f == text || f == list)
				}
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
			d := &st.Tables.Defects[f.Defect]
			row := []string{p.ID, f.ID, d.Name, f.Severity.String(), catalog.FormatMicro(f.Extent), strconv.Itoa(f.Count), string(f.Where)}
			rows = append(rows, row)
		}
	case Quotes:
		for i := range p.Quotes {
			rows = append(rows, quoteRow(st, p, &p.Quotes[i]))
		}
	}
	return rows
}

func pieceRow(st *catalog.State, p *catalog.Piece) []string {
	owner := map[catalog.Side]string{catalog.Customers: "customer", catalog.Shops: "shop"}[p.Side]
	if p.Vendor != catalog.None {
		owner = st.Vendors[p.Vendor].ID
	}
	metal, bundle, chance := "unknown", "", ""
	if p.Metal != catalog.None {
		metal = st.Tables.Metals[p.Metal].Name
	}
	if p.Bundle != catalog.None {
		bundle = st.Bundles[p.Bundle].ID
	}
	if p.Chance < catalog.One {
		chance = catalog.FormatMicro(p.Chance)
	}
	var fits []string
	byHand := map[int]bool{}
	for _, f := range p.Fit {
		byHand[f.Slot] = true
	}
	for _, s := range p.Fits {
		if !byHand[s] {
			fits = append(fits, st.Slots[s].ID)
		}
	}
	name := p.Name
	if name == p.ID {
		name = ""
	}
	return []string{
		p.ID, strings.Join(fits, "|"), string(p.Kind), owner, metal, strconv.Itoa(p.Quantity),
		name, p.Tag, p.Place, p.Marks, p.Note, strings.Join(p.Photos, "|"),
		amount(p.Price), amount(p.Value), bundle, chance, given(p.Days, strconv.Itoa),
		given(p.Grade, catalog.FormatCenti), given(p.Tone, catalog.FormatCenti), given(p.Fresh, strconv.FormatBool),
	}
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
