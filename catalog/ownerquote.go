package catalog

// OwnerQuote is how the job is quoted to the owner of the object. Money that is not
// given is nothing, and shares are of one.
type OwnerQuote struct {
	Given     bool   // there is a table [quote]
	For       string // the owner, as addressed
	By        string // the shop, as it signs
	Plating   Micro  // markup on what platers and makers charge
	Parts     Micro  // markup on what is bought
	Hourly    Val[Cents]
	Removal   Micro // hours per slot: taking off and listing
	Tagging   Micro
	Packing   Micro
	Fitting   Micro
	Tax       Micro
	Deposit   Micro // due with the order
	Strip     Micro // due once the prices after stripping are approved; the rest at the end
	ValidDays int
	Bears     string   // who bears it if a piece breaks: "customer", the default, or "shop"
	Keeps     string   // who keeps pieces that are not used: "customer", the default, or "shop"
	Excluded  []string // what is not part of it
	Broken    bool     // what was spent on pieces that broke or got lost bears the markup too
	Paid      Cents    // by the owner so far
	From      Origin
}

// Labour is what taking off, listing, fitting and, where the piece travels, packing come to in
// one slot.
func (q *OwnerQuote) Labour(travels bool) Cents {
	hours := q.Removal + q.Tagging + q.Fitting
	if travels {
		hours += q.Packing
	}
	return Of(hours, q.Hourly.Or(0))
}

// Unit is into how many parts a cent has to be cut for a markup on it to come out even: 20
// with markups of 15 and 10 in 100, 1 without any, a million at most.
func (q *OwnerQuote) Unit() int64 {
	g := int64(One)
	for _, m := range []int64{int64(q.Plating), int64(q.Parts)} {
		for m != 0 {
			g, m = m, g%m
		}
	}
	return int64(One) / g
}

// The words for who bears or keeps something.
const (
	ByCustomer = "customer"
	ByShop     = "shop"
)

// defaultValid is how many days a quote holds. Common practice, no published source.
const defaultValid = 30

// readOwnerQuote reads [quote], the shop's first and the job's over it, key by key.
func (l *loader) readOwnerQuote() {
	q := &l.state.Quote
	q.ValidDays, q.Bears, q.Keeps, q.Hourly = defaultValid, ByCustomer, ByCustomer, l.state.Shop.Hourly
	for _, root := range []*table{l.shop, l.job} {
		if root == nil {
			continue
		}
		t := root.sub("quote", "[quote]")
		if t == nil {
			continue
		}
		q.Given, q.From = true, t.here()
		for key, to := range map[string]*string{"for": &q.For, "by": &q.By} {
			if s := t.text(key); s != "" {
				*to = s
			}
		}
		for key, to := range map[string]*string{"bears": &q.Bears, "keeps": &q.Keeps} {
			if w := t.word(key, ByCustomer, ByShop); w != "" {
				*to = w
			}
		}
		for key, to := range map[string]*Micro{"removal": &q.Removal, "tagging": &q.Tagging, "packing": &q.Packing,
			"fitting": &q.Fitting} {
			if v := t.hours(key); v.Set {
				*to = v.V
			}
		}
		for key, to := range map[string]*Micro{"plating": &q.Plating, "parts": &q.Parts, "tax": &q.Tax, "deposit": &q.Deposit,
			"after_strip": &q.Strip} {
			if v := t.share(key); v.Set {
				*to = v.V
			}
		}
		over(&q.Hourly, t.money("hourly"))
		q.Paid = t.money("paid").Or(q.Paid)
		q.Broken = t.flag("mark_up_broken").Or(q.Broken)
		q.ValidDays = t.whole("valid_days", 1, MaxDays).Or(q.ValidDays)
		if list := t.texts("excluded"); list != nil {
			q.Excluded = list
		}
		if q.Deposit+q.Strip > One {
			t.wrongHere("deposit and after_strip come to more than the whole", "write shares that leave something for the "+
				"end, such as deposit = 0.4 and after_strip = 0.3")
		}
		t.done()
	}
}
