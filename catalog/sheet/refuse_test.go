package sheet

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
)

// all are the problems of an error, one a line.
func all(err error) string {
	var p Problems
	if !errors.As(err, &p) {
		return fmt.Sprint(err)
	}
	var out []string
	for _, one := range p {
		out = append(out, one.String())
	}
	return strings.Join(out, "\n")
}

// The whole of what is said is compared: nothing is told twice, and nothing that
// only follows from something else.
func TestImportRefuses(t *testing.T) {
	const head = "id,fits,kind,metal"
	const row = "\np1,grille,original,brass"
	cases := []struct{ name, text, want string }{
		{"nothing", "", "the file is empty; the first row has to name the columns: id, fits, kind, owner, metal, quantity, " +
			"name, tag, place, marks, note, photos, price, value, bundle, box, chance, days, grade, tone, fresh, weak, tried, " +
			"off, fitted"},
		{"head only", head, "there are no rows below the head"},
		{"no id", "fits,kind,metal\ngrille,original,brass", `row 1: there is no column "id"; the columns may be: ` +
			strings.Join(Columns(Pieces), ", ")},
		{"unknown column", "id,fits,kind,metl" + row, `row 1, D1: unknown column "metl"; did you mean "metal"?`},
		{"column twice", head + ",Metal" + row + ",brass", `row 1, E1: the column "metal" is there twice; leave one out`},
		{"head further down", "\n\n" + "id,fits,kind,metl" + row, `row 3, D3: unknown column "metl"; did you mean "metal"?`},
		{"id twice", head + row + row, `row 3, id (A3): "p1" is in row 2 already; give one of the two another name`},
		{"id empty", head + "\n,grille,original,brass", "row 2, id (A2): this is empty; every row needs a name of its own " +
			"here"},
		{"kind empty", head + "\np1,grille,,brass", `row 2, kind (C2): this is empty; write "original", "old-stock" or ` +
			`"reproduction"`},
		{"too long", head + row + ",more", `row 2, E2: "more" stands beyond the last column; put text with the delimiter ` +
			`in it in quotes`},
		{"too short", head + ",note" + row, "row 2: this row ends after 4 cells of 5; cells that are empty need their " +
			"delimiters too; a line end within a cell needs quotes around the cell"},
		{"no name", head + ",," + row + ",,lost", `row 2, F2: "lost" stands in a column without a name; give the column a ` +
			`name, or empty it`},
		{"latin-1", head + ",note" + row + ",caf\xe9", `row 2, note (E2): "caf\xe9" is not UTF-8; save the table as CSV, ` +
			`UTF-8`},
		{"latin-1 in the head", head + ",caf\xe9" + row + ",", `row 1, E1: unknown column "caf\xe9"; the columns may be: ` +
			strings.Join(Columns(Pieces), ", ")},
		{"nul", head + "\np1,gri\x00lle,original,brass", `row 2, fits (B2): there is a NUL byte in "gri\x00lle"; save the ` +
			`table as CSV, UTF-8`},
		{"utf-16 without mark", "i\x00d\x00,\x00", "every other byte is a NUL: the file looks like UTF-16 without its " +
			"mark; save the table as CSV, UTF-8"},
		{"utf-16 cut off", "\xff\xfei\x00d", "the file ends in the middle of a character; save the table as CSV, UTF-8"},
		{"quote left open", head + ",note" + row + ",\"50 inch\np2,grille,original,brass,\np3,grille,original,brass,",
			`row 2, E2: the quote that opens this cell is never closed; ` +
				`put a " at the end of the cell, and write quotes ` +
				`inside it twice`},
		{"quote left open, and more", head + ",note" + row + ",\"50 inch\np2,gril,original,brass,\n",
			`row 2, E2: the quote that opens this cell is never closed; ` +
				`put a " at the end of the cell, and write quotes inside it twice
row 3, fits (B3): no slot or part is called "gril"; did you mean "grille"?`},
		{"turned slot", head + "\np1,1-Feb,original,brass", `row 2, fits (B2): no slot or part is called "1-Feb"; ` +
			turnedHint},
		{"money with three decimal places", "id;fits;kind;metal;owner;price\np1;grille;original;brass;shop;1,240",
			`row 2, price (F2): "1,240" has a comma, which some read as a decimal point; write "1240.00" or "1.24"`},
		{"quote in quotes", head + ",note" + row + ",\"50\" rim\"\np2,gril,original,brass,",
			`row 2, E2: there is a quote in the middle of this quoted cell; write quotes inside a cell twice: "50"" wide"
row 3, fits (B3): no slot or part is called "gril"; did you mean "grille"?`},
		{"money", head + ",owner,price" + row + ",shop,\"1.240,00\"", `row 2, price (F2): "1.240,00" has a comma, which ` +
			`some read as a decimal point; write "1240.00"`},
		{"money of thousands", "id;fits;kind;metal;owner;price\np1;grille;original;brass;shop;1.240,00",
			`row 2, price (F2): "1.240,00" has a comma, which some read as a decimal point; write "1240.00"`},
		{"money with three decimals", head + ",owner,price" + row + ",shop,1.240",
			`row 2, price (F2): "1.240" doesn't have two decimals; write "1240.00" or "1.24"`},
		{"decimal comma among commas", head + ",grade" + row + ",\"77,5\"", `row 2, grade (E2): "77,5" has a decimal ` +
			`comma; write 77.5; if all are so, add --decimal-comma`},
		{"percent", head + ",chance" + row + ",95%", `row 2, chance (E2): "95%" has to be a number; write 0.95`},
		{"flag", head + ",fresh" + row + ",yes", `row 2, fresh (E2): "yes" has to be true or false; write true or false`},
		{"fraction", head + ",quantity" + row + ",1.5", `row 2, quantity (E2): "1.5" has to be a whole number; write 2`},
		{"huge", head + ",quantity" + row + ",99999999999999999999", `row 2, quantity (E2): "99999999999999999999" has to ` +
			`be a whole number; write a whole number from 1 to 10000`},
		{"unknown word", head + "\np1,grille,orignal,brass", `row 2, kind (C2): unknown word "orignal"; did you mean ` +
			`"original"?`},
		{"several lines", head + ",note" + row + ",\"a\nb\"\np2,grill,original,brass,",
			`row 3, fits (B3): no slot or part is called "grill"; did you mean "grille"?`},
		{"formula", head + "\n=A1,grille,original,brass", `row 2, id (A2): "=A1" is a formula; write what it comes to, or ` +
			`an apostrophe before it if it is meant as text`},
		{"owner unknown, price left alone", head + ",owner,price,chance" + row + ",=B2,3.00,2",
			`row 2, owner (E2): "=B2" is a formula; write what it comes to, or an apostrophe before it if it is meant as text
row 2, chance (G2): 2 is not between 0 and 1; write a number from 0 to 1; 2 % is 0.02`},
		{"formula gone wrong", head + ",quantity" + row + ",#REF!", `row 2, quantity (E2): "#REF!" is what a spreadsheet ` +
			`shows for a formula gone wrong; write the value`},
		{"ambiguous", "id;fits,kind;metal,note\n", "the head makes as much sense with a comma between the cells as with a " +
			"semicolon; say which it is: --delimiter comma"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if _, _, err := importText(t, c.text, Pieces); all(err) != c.want {
				t.Errorf("got\n%s\nwant\n%s", all(err), c.want)
			}
		})
	}
}

func TestImportRefusesOthers(t *testing.T) {
	cases := []struct {
		name, text, want string
		what             What
	}{
		{"lead without a chance", "id,fits,kind,metal\np1,grille,original,brass",
			`row 1: there is no column "chance"; the columns may be: ` + strings.Join(Columns(Leads), ", "), Leads},
		{"certain lead", "id,fits,kind,metal,chance\np1,grille,original,brass,1",
			"row 2, chance (E2): what is certain to come is no lead; write a chance below 1, or import it with --what pieces",
			Leads},
		{"unknown piece", "piece,defect\nhollow,haze", `row 2, piece (A2): no piece of the job is called "hollow"; first ` +
			`write the piece itself: its kind and metal and what it fits`, Findings},
		{"turned piece", "piece,defect\n1-Feb,haze", `row 2, piece (A2): no piece of the job is called "1-Feb"; ` +
			turnedHint, Findings},
		{"shop's piece", "piece,defect\ndrawer-horn-ring,haze", `row 2, piece (A2): piece "drawer-horn-ring" is in the ` +
			`shop's file; write its findings and quotes there`, Findings},
		{"area for an extent", "piece,defect,extent\nold,haze,3 in2", `row 2, extent (C2): "3 in2" has to be a number; ` +
			`write a number from 0 to 1`, Findings},
		{"no such day", "piece,plater,cost,level,date\nold,pell,3.00,show,2026-02-31",
			`row 2, date (E2): "2026-02-31" has to be a date; write 2027-01-10`, Quotes},
		{"american day", "piece,plater,cost,level,date\nold,pell,3.00,show,11/2/2026",
			`row 2, date (E2): "11/2/2026" has to be a date; write 2027-01-10`, Quotes},
		{"defect and plater empty", "piece,plater,cost,level\nold,,,show", "row 2, plater (B2): this is empty; write the " +
			"id of one of the platers\nrow 2, cost (C2): this is empty; write what he asks, such as 240.00", Quotes},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if _, _, err := importInto(t, withOld, c.text, c.what); all(err) != c.want {
				t.Errorf("got\n%s\nwant\n%s", all(err), c.want)
			}
		})
	}
}

// withOld is a piece of the job for findings and quotes to be added to.
const withOld = "\n[piece.old]\nfits = [\"grille\"]\nkind = \"original\"\nmetal = \"pot metal\"\n"

// Findings and quotes without an id are called after the defect and the plater.
func TestNamesOfTheirOwn(t *testing.T) {
	out, _, err := importInto(t, withOld, "piece,id,defect\nold,,haze\nold,haze,pits\nold,,haze\n", Findings)
	if err != nil {
		t.Fatal(all(err))
	}
	text, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"[piece.old.finding.haze-2]", "[piece.old.finding.haze]", "[piece.old.finding.haze-3]"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
}

func TestImportTellsEverything(t *testing.T) {
	text := "id,fits,kind,metal,chance\n"
	for i := range 1000 {
		text += fmt.Sprintf("p%d,grille,original,tin%d,95%%\n", i, i)
	}
	_, _, err := importText(t, text, Pieces)
	if n := len(problemsOf(err)); n != 2000 {
		t.Errorf("%d problems", n)
	}
}

func TestWarnings(t *testing.T) {
	_, _, err := importText(t, "id,fits,kind,metal\n1-Feb,grille,original,brass\n2.00E+05,grille,original,brass\n"+
		"1-2,grille,original,brass\n'1-Feb,grille,original,brass\ndrawer-grille,grille,original,brass\n", Pieces)
	if err == nil {
		t.Fatal("two of a name")
	}
	_, done, err := importText(t, "id,fits,kind,metal\n1-Feb,grille,original,brass\n2.00E+05,grille,original,brass\n"+
		"1-2,grille,original,brass\ndrawer-grille,grille,original,brass\n", Pieces)
	if err != nil {
		t.Fatal(all(err))
	}
	got := all(Problems(done.Warnings))
	for _, want := range []string{`row 2, id (A2): "1-Feb" looks like`, `row 3, id (A3): "2.00E+05" looks like`,
		`row 5, id (A5): `, `has a piece "drawer-grille" too`} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "row 4") {
		t.Errorf("an id that is as it should be: %s", got)
	}
}
