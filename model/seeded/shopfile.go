package seeded

import (
	"fmt"
	"strconv"
	"strings"

	"brightset/catalog"
)

// shop writes what the shop's file says of people.
func (f *file) shop() {
	st := f.st
	f.table("shop")
	f.money("hourly", st.Shop.Hourly.V)
	f.texts("works", f.workNames(st.Shop.Works))
	for i := range st.Platers {
		f.plater(&st.Platers[i])
	}
	for _, m := range st.Makers {
		f.table("maker", m.ID)
		f.money("hourly", m.Hourly)
		f.texts("works", f.workNames(m.Works))
		f.key("days", fmt.Sprint(m.Days))
	}
	for _, v := range st.Vendors {
		f.table("vendor", v.ID)
		f.money("freight", v.Freight)
		f.key("days", fmt.Sprint(v.Days))
	}
	for _, b := range st.Bundles {
		f.table("bundle", b.ID)
		f.text("vendor", st.Vendors[b.Vendor].ID)
		f.money("price", b.Price)
	}
}

func (f *file) workNames(works []int) []string {
	var names []string
	for _, w := range works {
		names = append(names, f.st.Tables.Works[w].Name)
	}
	return names
}

func (f *file) plater(p *catalog.Plater) {
	f.table("plater", p.ID)
	f.money("minimum", p.Minimum)
	f.money("freight", p.Freight)
	f.key("days", fmt.Sprint(p.Days))
	f.money("hourly", p.Hourly.V)
	f.money("least_per_piece", p.Least)
	f.money("strip_fee", p.StripFee)
	f.key("breakage_factor", micro(p.Factor))
	f.texts("works", f.workNames(p.Works))
	for i := range p.Levels {
		l := &p.Levels[i]
		f.table("plater", p.ID, "level", l.Name)
		f.key("rate", byMetal(f.st, l.Rate, func(v catalog.Cents) string { return strconv.Quote(catalog.FormatMoney(v)) }))
		f.key("grade", byMetal(f.st, l.Grade, centi))
		f.points("tone", l.Tone)
	}
}

// byMetal is an inline table of what is given for each metal.
func byMetal[T any](st *catalog.State, list []catalog.Val[T], text func(T) string) string {
	var out []string
	for m := range list {
		if list[m].Set {
			out = append(out, strconv.Quote(st.Tables.Metals[m].Name)+" = "+text(list[m].V))
		}
	}
	return "{ " + strings.Join(out, ", ") + " }"
}
