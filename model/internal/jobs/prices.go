package jobs

import (
	"fmt"

	"brightset/catalog"
)

// Prices lets platers ask by the piece: for some parts, some metals and some single pieces,
// beside the rate or, at some levels, without any.
func (j *RandomJob) Prices() {
	if !j.has("price") {
		return
	}
	st := j.St
	for q := range st.Platers {
		for l := range st.Platers[q].Levels {
			level := &st.Platers[q].Levels[l]
			r := j.Of(fmt.Sprint("price ", q, l))
			add := func(name string) {
				p := catalog.Price{Of: name, Cost: make([]catalog.Val[catalog.Cents], len(level.Rate))}
				for m := range p.Cost {
					p.Cost[m] = maybe(Chance(r, 70), Between[catalog.Cents](r, 0, 180_00))
				}
				level.Prices = append(level.Prices, p)
			}
			for s := range st.Slots {
				if Chance(r, 40) {
					add(st.Slots[s].Part)
				}
			}
			for i := range st.Pieces {
				if Chance(r, 15) {
					add(st.Pieces[i].ID)
				}
				if Chance(j.Of(fmt.Sprint("price by file ", q, l, i)), 10) {
					add(st.Pieces[i].Key())
				}
			}
			if len(level.Prices) > 0 && Chance(r, 30) {
				level.Rate = make([]catalog.Val[catalog.Cents], len(level.Rate))
			}
		}
	}
}
