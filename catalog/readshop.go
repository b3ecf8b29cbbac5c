package catalog

import (
	"fmt"
	"strings"
)

// either gives the tables [kind.NAME] of the job's file and then the shop's.
func (l *loader) either(kind string) []*table {
	var out []*table
	for _, root := range []*table{l.job, l.shop} {
		if root != nil {
			out = append(out, root.named(kind)...)
		}
	}
	return out
}

func (l *loader) readVendors() {
	for _, t := range l.either("vendor") {
		if strings.EqualFold(t.id, "customer") || strings.EqualFold(t.id, "shop") {
			t.wrongHere(fmt.Sprintf("a vendor can't be called %q", t.id), "it means somebody else in owner = ...; write "+
				"another name")
		}
		if !l.vendors.addOnce(t) {
			continue
		}
		l.state.Vendors = append(l.state.Vendors, Vendor{
			ID: t.id, Name: t.nameOr(t.id),
			Freight: t.money("freight").V, Days: t.whole("days", 0, MaxDays).V,
			From: t.here(),
		})
		t.done()
	}
	for _, t := range l.either("bundle") {
		if !l.bundles.addOnce(t) {
			continue
		}
		t.need("price", `write price = "400.00"`)
		l.state.Bundles = append(l.state.Bundles, Bundle{
			ID: t.id, Vendor: t.ref("vendor", l.vendors),
			Price: t.money("price").V, Days: t.whole("days", 0, MaxDays),
			From: t.here(),
		})
		t.done()
	}
}

func (l *loader) readMakers() {
	for _, t := range l.either("maker") {
		if !l.makers.addOnce(t) {
			continue
		}
		t.need("hourly", `write hourly = "60.00"`)
		t.need("works", `write works = ["new post"], the works he does`)
		l.state.Makers = append(l.state.Makers, Maker{
			ID: t.id, Name: t.nameOr(t.id),
			Hourly: t.money("hourly").V, Works: t.refs("works", l.works), Days: t.whole("days", 0, MaxDays).V,
			From: t.here(),
		})
		t.done()
	}
}

// readShop reads [shop]; what it doesn't give are the starting values.
func (l *loader) readShop() {
	l.state.Shop.CallAbove = defaultCallAbove
	l.state.Shop.Hourly = l.defaults.Hourly
	if l.shop == nil {
		return
	}
	t := l.shop.sub("shop", "[shop]")
	if t == nil {
		return
	}
	over(&l.state.Shop.Hourly, t.money("hourly"))
	shop := &l.state.Shop
	shop.Name, shop.Address = t.text("name"), t.text("address")
	shop.Phone, shop.Contact = t.text("phone"), t.text("contact")
	shop.CallAbove = t.share("call_above").Or(shop.CallAbove)
	l.state.Shop.Misfit = t.share("misfit")
	l.state.Shop.Works = t.refs("works", l.works)
	over(&l.defaults.Rescue, t.money("rescue"))
	over(&l.defaults.RescueDays, t.whole("rescue_days", 0, MaxDays))
	own := t.spread()
	over(&l.state.Tables.Spread.Low, own.Low)
	over(&l.state.Tables.Spread.High, own.High)
	for i, name := range t.texts("jobs") {
		if name == "" {
			t.wrongItem("jobs", i, "this is empty", "write the path of a job's file")
			continue
		}
		l.state.Shop.Jobs = append(l.state.Shop.Jobs, l.shop.doc.beside(name))
	}
	t.raw("include") // read with the files
	t.done()
}

func (t *table) nameOr(other string) string {
	if s := t.name("name"); s != "" {
		return s
	}
	return other
}

func (l *loader) readPlaters() {
	learned := l.learnedOfPlaters()
	listed := l.listedPrices()
	for _, t := range l.either("plater") {
		if !l.platers.addOnce(t) {
			continue
		}
		p := Plater{
			ID: t.id, Name: t.nameOr(t.id),
			Minimum: t.money("minimum").V, Freight: t.money("freight").V,
			Days: t.whole("days", 0, MaxDays).V, Hourly: t.money("hourly"),
			Least: t.money("least_per_piece").V, StripFee: t.money("strip_fee").V,
			Works: t.refs("works", l.works), Refuses: t.refs("refuses", l.defects),
			Factor: learned[t.id].Factor, Spread: learned[t.id].Spread,
			Drift: number(t, "tone_drift", 0, 2*MaxTone, 100).V, From: t.here(),
		}
		if p.Works == nil {
			p.Works = l.usualWorks()
		}
		if p.Factor == 0 {
			p.Factor = One
		}
		p.Factor = t.factor().Or(p.Factor)
		own := t.spread()
		over(&p.Spread.Low, own.Low)
		over(&p.Spread.High, own.High)
		for _, sub := range t.named("level") {
			level := l.readLevel(sub)
			level.Prices = append(level.Prices, listed[p.ID][strings.ToLower(level.Name)]...)
			p.Levels = append(p.Levels, level)
		}
		l.state.Platers = append(l.state.Platers, p)
		t.done()
	}
	l.checkListed()
	for _, root := range l.others {
		for _, t := range root.named("plater") {
			if _, known := l.platers.index[t.id]; !known && !l.excused(l.platers, t.id) {
				message, hint := l.unknown(l.platers, t.id)
				t.wrongHere(message, hint)
			}
		}
	}
}

// factor reads a plater's breakage factor, which may be written in short.
func (t *table) factor() Val[Micro] {
	short := number(t, "factor", 0, MaxFactor, 1e6)
	long := number(t, "breakage_factor", 0, MaxFactor, 1e6)
	if short.Set && long.Set {
		t.wrongKey("factor", "factor and breakage_factor are the same", "leave one of the two out")
	}
	over(&short, long)
	return short
}

// learnedOfPlaters reads, of platers in included files, how often they break what they have
// and how far guesses of their work are off: that and prices by the piece are all that may
// stand there about a plater.
func (l *loader) learnedOfPlaters() map[string]Plater {
	out := map[string]Plater{}
	for _, root := range l.others {
		for _, t := range root.named("plater") {
			p, own := out[t.id], t.spread()
			p.Factor = t.factor().Or(p.Factor)
			over(&p.Spread.Low, own.Low)
			over(&p.Spread.High, own.High)
			out[t.id] = p
			t.raw("level") // its prices are read with the platers
			t.done()
		}
	}
	return out
}

// usualWorks are what a plater takes who lists no works.
func (l *loader) usualWorks() []int {
	out := []int{}
	for i, w := range l.state.Tables.Works {
		if w.Usual {
			out = append(out, i)
		}
	}
	return out
}

func (l *loader) readLevel(t *table) Level {
	var rate byMetal[Cents]
	var grade byMetal[Centi]
	before := len(l.list)
	if !t.has("price") && !l.pricedElsewhere(t) {
		t.need("rate", `write rate = {steel = "25.00", other = "30.00"}, the price per dm2, `+
			"or below it a table price, by the part")
	}
	t.need("grade", `write grade = {steel = 92, other = 85}, the grade it comes out at`)
	readByMetal(t, "rate", &rate, (*table).money)
	readByMetal(t, "grade", &grade, (*table).grade)
	if len(l.list) > before {
		l.spoilt[t.path] = true
	}
	metals := len(l.state.Tables.Metals)
	out := Level{Name: t.id, Rate: rate.list(metals), Prices: l.readPrices(t),
		Grade: grade.list(metals), Tone: t.tone("tone"), From: t.here()}
	t.done()
	return out
}
