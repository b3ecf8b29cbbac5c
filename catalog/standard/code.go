package standard

import (
	"fmt"
	"strconv"
	"strings"
)

// Service is how hard the use is: 1 mild to 5 extended severe, as ASTM B456 counts it.
type Service int

// ServiceWords are the standard's words for the conditions 1 to 5, and what each means
// (ASTM B456, from memory).
var ServiceWords = []struct{ Word, Means string }{
	{"mild", "indoors, warm and dry"},
	{"moderate", "indoors, where damp condenses"},
	{"severe", "outdoors, now and then wet by rain or dew"},
	{"very severe", "outdoors, likely damage by dents, scratches and salt"},
	{"extended severe", "outdoors as before, for a long life"},
}

// ParseService reads a word of the standard, or SC1 to SC5.
func ParseService(s string) (Service, bool) {
	for i, w := range ServiceWords {
		if s == w.Word || strings.EqualFold(s, fmt.Sprintf("SC%d", i+1)) {
			return Service(i + 1), true
		}
	}
	return 0, false
}

// Basis is the metal under the plating.
type Basis string

// The basis metals that have a table.
const (
	Steel       Basis = "Fe"
	ZincAlloy   Basis = "Zn"
	CopperAlloy Basis = "Cu"
)

// Code is a classification: basis metal, copper, nickel and chromium. Types: copper a is
// ductile acid copper (from memory); nickel b bright, d double or multilayer, p dull or
// semi-bright, s polished; chromium r regular, mp microporous, mc microcracked.
// Thicknesses are the least, in um; chromium is 0.3 where it is 0.
type Code struct {
	Basis      Basis
	Copper     float64
	CopperType string
	Nickel     float64
	NickelType string
	ChromeType string
	Chrome     float64
}

// DefaultChrome is the least thickness of chromium in um that a code without one stands
// for (Surface Finishing Guidebook 2011-12, table V, after ASTM B456).
const DefaultChrome = 0.3

// String writes the code: Fe/Ni35d Cr mp.
func (c Code) String() string {
	text := string(c.Basis) + "/"
	if c.Copper > 0 {
		text += "Cu" + um(c.Copper) + c.CopperType + " "
	}
	text += "Ni" + um(c.Nickel) + c.NickelType + " Cr " + c.ChromeType
	if c.Chrome > 0 && c.Chrome != DefaultChrome {
		text += um(c.Chrome)
	}
	return text
}

func um(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Parse reads what String writes.
func Parse(s string) (Code, error) {
	wrong := fmt.Errorf("%q is no classification code; write it as Fe/Cu20a Ni30b Cr mc", s)
	basis, rest, ok := strings.Cut(s, "/")
	if !ok || basis == "" || strings.ContainsAny(basis, " /") {
		return Code{}, wrong
	}
	c := Code{Basis: Basis(basis)}
	fields := strings.Fields(rest)
	if len(fields) > 0 && strings.HasPrefix(fields[0], "Cu") {
		if c.Copper, c.CopperType, ok = layer(fields[0][2:]); !ok {
			return Code{}, wrong
		}
		fields = fields[1:]
	}
	if len(fields) != 3 || !strings.HasPrefix(fields[0], "Ni") || fields[1] != "Cr" {
		return Code{}, wrong
	}
	if c.Nickel, c.NickelType, ok = layer(fields[0][2:]); !ok || !oneOf(c.NickelType, "b", "d", "p", "s") {
		return Code{}, wrong
	}
	c.ChromeType = strings.TrimRight(fields[2], "0123456789.")
	if text := fields[2][len(c.ChromeType):]; text != "" {
		v, err := strconv.ParseFloat(text, 64)
		if err != nil || v <= 0 {
			return Code{}, wrong
		}
		c.Chrome = v
	}
	if !oneOf(c.ChromeType, "r", "mp", "mc") {
		return Code{}, wrong
	}
	return c, nil
}

// layer reads a thickness and a type: 35d.
func layer(s string) (float64, string, bool) {
	kind := strings.TrimLeft(s, "0123456789.")
	v, err := strconv.ParseFloat(s[:len(s)-len(kind)], 64)
	return v, kind, err == nil && v > 0 && len(kind) <= 1
}

func oneOf(s string, list ...string) bool {
	for _, one := range list {
		if s == one {
			return true
		}
	}
	return false
}

// row is one line of the tables: least nickel for a basis metal, service and chromium.
type row struct {
	basis   Basis
	service Service
	chrome  string
	nickel  float64
	kind    string
	seen    bool // in a stored copy; else from memory
}

// Sources of the table below.
const (
	seenIn   = "Surface Finishing Guidebook 2011-12, table V, after ASTM B456"
	recalled = "ASTM B456 tables, from memory"
)

// table holds the least nickel in um. The guidebook misprints the top row of steel as
// SC4, and one SC4 entry as 40d mp; they stand here as the standard has them.
var table = []row{
	{Steel, 5, "mp", 35, "d", true}, {Steel, 5, "mc", 35, "d", true},
	{Steel, 4, "r", 40, "d", true}, {Steel, 4, "mc", 30, "d", true}, {Steel, 4, "mp", 30, "d", false},
	{Steel, 3, "r", 30, "d", true}, {Steel, 3, "mc", 25, "d", true}, {Steel, 3, "mp", 25, "d", false},
	{Steel, 2, "r", 20, "b", false}, {Steel, 2, "mc", 15, "b", false}, {Steel, 2, "mp", 15, "b", false},
	{Steel, 1, "r", 10, "b", false},
	{ZincAlloy, 5, "mp", 35, "d", false}, {ZincAlloy, 5, "mc", 35, "d", false},
	{ZincAlloy, 4, "r", 35, "d", false}, {ZincAlloy, 4, "mc", 30, "d", false}, {ZincAlloy, 4, "mp", 30, "d", false},
	{ZincAlloy, 3, "r", 25, "d", false}, {ZincAlloy, 3, "mc", 20, "d", false}, {ZincAlloy, 3, "mp", 20, "d", false},
	{ZincAlloy, 2, "r", 20, "b", false}, {ZincAlloy, 2, "mc", 15, "b", false}, {ZincAlloy, 2, "mp", 15, "b", false},
	{ZincAlloy, 1, "r", 10, "b", false},
	{CopperAlloy, 4, "r", 30, "d", false}, {CopperAlloy, 4, "mc", 25, "d", false}, {CopperAlloy, 4, "mp", 25, "d", false},
	{CopperAlloy, 2, "r", 15, "b", false},
	{CopperAlloy, 1, "r", 5, "b", false},
}

// zincCopper is the least copper on zinc alloys before nickel, in um (ASTM B456, from
// memory; other sources seen: 0.76 to 1.27 and then 2.0 to 3.6, or 7.6 to 12.7).
const zincCopper = 5

// Choose gives the code for a basis metal and a service with a kind of chromium (r, mp or
// mc), the next harder service where there is no line for it, and where it comes from.
// ok is false where no table goes so far: say so and ask the plater.
func Choose(b Basis, s Service, chrome string) (c Code, source string, ok bool) {
	best := row{service: 99}
	for _, r := range table {
		if r.basis == b && r.chrome == chrome && r.service >= s && r.service < best.service {
			best = r
		}
	}
	if best.service == 99 || s < 1 {
		return Code{}, "", false
	}
	c = Code{Basis: b, Nickel: best.nickel, NickelType: best.kind, ChromeType: chrome}
	source = recalled
	if best.seen {
		source = seenIn
	}
	if b == ZincAlloy {
		c.Copper, source = zincCopper, recalled
	}
	return c, source, true
}

// CopperFirst says whether a basis metal always gets copper before nickel: zinc and
// aluminium alloys do (ASTM B456 clause 1.1).
func CopperFirst(metal string) bool { return metal == "zinc" || metal == "aluminium" }

// NickelJIS is the least nickel in um on steel by grade 1 to 7, and whether it is double
// (JIS H 8617, reprint). Its chromium is 0.1 um.
func NickelJIS(grade int) (um float64, double, ok bool) {
	list := []float64{3, 5, 10, 15, 20, 25, 30}
	if grade < 1 || grade > len(list) {
		return 0, false, false
	}
	return list[grade-1], grade >= 6, true
}

// InchGrade is the thickness in inches of a letter grade, A thickest (summary of federal
// specification QQ-N-290).
func InchGrade(letter byte) (inch float64, ok bool) {
	list := []float64{0.0016, 0.0012, 0.0010, 0.0008, 0.0006, 0.0004, 0.0002}
	if letter < 'A' || letter > 'G' {
		return 0, false
	}
	return list[letter-'A'], true
}
