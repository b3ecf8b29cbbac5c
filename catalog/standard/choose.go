package standard

// row is one line of the tables: least nickel for a basis metal, service and chromium.
type row struct {
	basis   Basis
	service Service
	chrome  string
	nickel  float64 // um
	kind    string
	seen    bool // in a stored copy; else from memory
}

// Sources of the table below, as they are printed.
const (
	SeenIn   = "Surface Finishing Guidebook 2011-12, table V, after ASTM B456"
	Recalled = "ASTM B456 tables, from memory"
)

// table holds the least nickel in um.
//
// Lines with true: Surface Finishing Guidebook 2011-12, table V. The page misprints the
// top row of steel as SC4 and one SC4 entry as 40d mp; they stand here as SC5, and 40d r.
// Lines with false: ASTM B456 tables, from memory. What is not here was not recalled either:
// the standard may well have it.
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

// ZincCopper is the least copper on zinc alloys before nickel, in um (ASTM B456, from
// memory). Sources seen disagree with it and with each other: 0.76 to 1.27 and then 2.0 to
// 3.6 (guidebook of 2012-13), or 7.6 to 12.7 (a trade magazine).
const ZincCopper = 5

// Chosen is a code, the service condition whose line it is, and where it comes from.
type Chosen struct {
	Code   Code
	For    Service // the one asked for, or the next harder that has a line
	Source string
}

// Choose gives the code for a basis metal and a service with a kind of chromium (r, mp or
// mc): the line of the next harder service where there is none for it. ok is false where
// no table goes so far: say so and ask the plater.
func Choose(b Basis, s Service, chrome string) (c Chosen, ok bool) {
	const none = 99
	best := row{service: none}
	for _, r := range table {
		if r.basis == b && r.chrome == chrome && r.service >= s && r.service < best.service {
			best = r
		}
	}
	if best.service == none || s < 1 {
		return Chosen{}, false
	}
	c = Chosen{
		Code: Code{Basis: b, Nickel: best.nickel, NickelType: best.kind, ChromeType: chrome},
		For:  best.service, Source: Recalled,
	}
	if best.seen {
		c.Source = SeenIn
	}
	if b == ZincAlloy {
		c.Code.Copper, c.Source = ZincCopper, Recalled
	}
	return c, true
}

// Copper says whether copper goes on a metal before nickel.
type Copper int

// What ASTM B456 clause 1.1 says of copper first.
const (
	CopperNotSaid  Copper = iota
	CopperFirst           // always: zinc and aluminium alloys
	CopperNeedless        // copper alloys and stainless steel
)

// CopperOn says whether copper goes first on a metal, by its everyday name (ASTM B456
// clause 1.1; pot metal is a zinc die casting).
func CopperOn(metal string) Copper {
	switch metal {
	case "zinc", "pot metal", "aluminium":
		return CopperFirst
	case "brass", "copper", "bronze", "nickel silver", "stainless steel":
		return CopperNeedless
	}
	return CopperNotSaid
}
