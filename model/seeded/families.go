package seeded

// Family says how large a job is and which rules it has.
type Family struct {
	Name       string
	Slots      int
	Pieces     int     // per slot, about
	Platers    int     // at least 1
	Vendors    int     // at least 1
	Bundles    int     //
	Trades     int     //
	Matches    int     // groups of two to four slots
	Quotes     float64 // share of pieces with a quote
	Offered    float64 // share of pieces that vendors offer; 0: 0.3
	Leads      float64 // share of pieces that may not come
	Completion float64 // 0: none
	Mean       float64 // 0: none
	Floor      float64 //
	Lasting    bool    //
	Days       int     // 0: no date
	Owned      float64 // share of slots whose reproduction the customer has bought already
	Budget     float64 // on outlay, as a share of what a set of reproductions is worth; 0: none
}

// Families are the families of the race.
var Families = []Family{
	{Name: "car-30", Slots: 30, Pieces: 6, Platers: 4, Vendors: 4, Bundles: 3, Trades: 2, Matches: 5, Quotes: 0.3,
		Leads: 0.15, Completion: 0.9, Mean: 84, Floor: 60, Lasting: true, Days: 150, Owned: 0.8, Budget: 0.33},
	{Name: "car-60", Slots: 60, Pieces: 6, Platers: 5, Vendors: 5, Bundles: 4, Trades: 3, Matches: 8, Quotes: 0.3,
		Leads: 0.15, Completion: 0.85, Mean: 84, Floor: 60, Lasting: true, Days: 150, Owned: 0.8, Budget: 0.33},
	{Name: "car-120", Slots: 120, Pieces: 5, Platers: 6, Vendors: 6, Bundles: 6, Trades: 4, Matches: 14, Quotes: 0.3,
		Leads: 0.15, Completion: 0.75, Mean: 84, Floor: 60, Lasting: true, Days: 150},
	{Name: "many-offers", Slots: 25, Pieces: 16, Platers: 6, Vendors: 10, Bundles: 8, Trades: 2, Matches: 3,
		Quotes: 0.5, Offered: 0.7, Leads: 0.3, Completion: 0.9, Mean: 86, Floor: 60},
	{Name: "tight-completion", Slots: 40, Pieces: 6, Platers: 4, Vendors: 4, Bundles: 2, Matches: 4, Quotes: 0.3,
		Leads: 0.25, Completion: 0.97, Mean: 82, Floor: 60},
	{Name: "many-matches", Slots: 40, Pieces: 6, Platers: 5, Vendors: 4, Bundles: 2, Matches: 14, Quotes: 0.3,
		Leads: 0.1, Completion: 0.9, Mean: 84, Floor: 60},
	{Name: "shop-400", Slots: 400, Pieces: 4, Platers: 8, Vendors: 10, Bundles: 10, Trades: 4, Matches: 40, Quotes: 0.2,
		Leads: 0.1, Completion: 0.4, Mean: 83, Floor: 60},
}

// OneOfMany is a job as a shop has several of: most of what it hangs came off the object
// or lies in the shop's drawers.
var OneOfMany = Family{Name: "one-of-many", Slots: 40, Pieces: 3, Platers: 5, Vendors: 4, Bundles: 4, Trades: 1,
	Matches: 8, Quotes: 0.3, Leads: 0.1, Completion: 0.9, Mean: 84, Floor: 60, Lasting: true, Days: 150}

// Named gives a family by its name.
func Named(name string) (Family, bool) {
	for _, f := range Families {
		if f.Name == name {
			return f, true
		}
	}
	return Family{}, false
}
