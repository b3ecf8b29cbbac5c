// Package jobs draws jobs for tests: random ones whose features are forced on or off one by
// one, those with figures of the sizes that jobs really have, those in the middle of things
// with pieces at platers' and back, and fixed small ones.
package jobs

import (
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// Options forces features of a random job in or out. A feature drawn or
// forced changes nothing else of the job: each has random numbers of its own.
type Options struct {
	On, Off []string
}

// features are the names of what may occur in a random job, with how
// often it does, in percent.
var features = map[string]int{
	"floor": 60, "mean": 45, "fresh": 12, "redone": 8, "misfit": 40, "keep": 30, "lasting": 25, "fallback-floor": 30,
	"slot-target": 30, "max-breakage": 30, "match-grade": 30, "match-tone": 25, "match-plater": 25, "match-fresh": 20,
	"days": 30, "completion": 35, "budget-outlay": 25, "budget-expected": 15, "budget-quote": 12,
	"lock": 20, "ban": 30,
	"trade": 40, "bundle": 40, "vendor": 60, "lead": 40, "quote": 50, "fit": 40, "bag": 40,
	"quantity": 25, "shared": 60, "value": 50, "minimum": 60, "freight": 60, "strip": 60, "refuses": 30,
	"maker": 60, "unknown-metal": 15, "no-area": 10, "given-grade": 40,
	"soundness": 40, "harmless": 40, "bears": 20, "second-plater": 70, "done": 30, "price": 25,
	"works-in": 20, "after": 25, "box": 30,
}

// RandomJob is one random job in the making.
type RandomJob struct {
	Seed int64
	Opt  Options
	St   *catalog.State
}

// Random makes a compiled state of a number of slots, the same for the
// same arguments.
func Random(seed int64, slots int, opt Options) *catalog.State {
	j := &RandomJob{Seed: seed, Opt: opt, St: &catalog.State{}}
	j.Tables()
	j.soundness()
	j.byMetal()
	j.Sellers()
	j.Platers()
	j.after()
	j.Slots(slots)
	j.Pieces()
	j.Prices()
	j.Trades()
	j.Targets()
	j.Matches()
	j.Filters()
	j.Limits()
	return j.St
}

// Of gives the random numbers of one feature.
func (j *RandomJob) Of(feature string) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(feature))
	return rand.New(rand.NewPCG(uint64(j.Seed), h.Sum64()))
}

// has says whether a feature occurs in this job.
func (j *RandomJob) has(feature string) bool {
	share, known := features[feature]
	if !known {
		panic("no random feature " + feature)
	}
	drawn := j.Of("has "+feature).IntN(100) < share
	return (drawn || slices.Contains(j.Opt.On, feature)) && !slices.Contains(j.Opt.Off, feature)
}

func Chance(r *rand.Rand, percent int) bool { return r.IntN(100) < percent }

// Between is a whole number from low to high, both included.
func Between[T ~int | ~int64](r *rand.Rand, low, high T) T {
	return low + T(r.Int64N(int64(high-low)+1))
}

func Set[T any](v T) catalog.Val[T] { return catalog.Val[T]{V: v, Set: true} }

// maybe is a value that is given or not.
func maybe[T any](given bool, v T) catalog.Val[T] {
	if !given {
		return catalog.Val[T]{}
	}
	return Set(v)
}

// Metals, defects and works of random jobs, by index.
const (
	Brass = iota
	potMetal
	steel
)

// Tables makes small trade tables. All figures are invented for the tests.
func (j *RandomJob) Tables() {
	t := &j.St.Tables
	unset := catalog.Val[catalog.Micro]{}
	micro := Set[catalog.Micro]
	centi := Set[catalog.Centi]
	t.Metals = []catalog.Metal{
		{Name: "brass", Base: micro(10_000)}, {Name: "pot metal", Base: micro(83_333)},
		{Name: "steel", Base: micro(5_001)}}
	t.Works = []catalog.Work{
		{Name: catalog.CleanWork, Hours: micro(250_000), Each: micro(33_333), PerArea: micro(123_457),
			Breakage: []catalog.Val[catalog.Micro]{micro(2_000), micro(7_777), unset}, Cap: centi(90_50)},
		{Name: "grind", Hours: micro(300_000), PerArea: micro(777_777),
			Breakage: []catalog.Val[catalog.Micro]{micro(5_000), micro(41_111), micro(1_003)}, Cap: centi(88_00)},
		{Name: "straighten", Each: micro(666_667),
			Breakage: []catalog.Val[catalog.Micro]{micro(9_999), micro(120_001)}},
		{Name: "posts", Hours: micro(100_000), Each: micro(450_000), Cap: centi(96_00)},
	}
	t.Defects = []catalog.Defect{
		{Name: "haze", Measure: catalog.ByExtent, By: [3]catalog.DefectAt{
			{Points: centi(12_00), Polishes: Set(true)}, {Points: centi(25_00), Polishes: Set(true)},
			{Points: centi(50_00)}}},
		{Name: "nickel showing", Measure: catalog.ByExtent, Progressive: true, Tone: centi(6_30),
			By: [3]catalog.DefectAt{
				{Points: centi(10_00), Cap: centi(75_00)}, {Points: centi(30_00), Cap: centi(60_00)},
				{Points: centi(70_00), Cap: centi(40_00)}}},
		{Name: "pits", Measure: catalog.ByExtent, Progressive: true, Tone: centi(-8_10),
			Refused: []catalog.Val[catalog.Micro]{unset, micro(210_007), micro(33_000)}, By: [3]catalog.DefectAt{
				{Points: centi(15_00), Works: []int{1}, Reveal: micro(111_111)}, {Points: centi(35_00), Works: []int{1},
					Reveal: micro(500_000)},
				{Points: centi(80_00), Cap: centi(55_00), Works: []int{1}}}},
		{Name: "dents", Measure: catalog.ByCount, By: [3]catalog.DefectAt{
			{Points: centi(3_00), Works: []int{2}}, {Points: centi(8_00), Works: []int{2}, Cap: centi(70_00)},
			{Points: centi(20_00), Works: []int{1, 2}, Cap: centi(45_00)}}},
		{Name: "post gone", Measure: catalog.ByCount, By: [3]catalog.DefectAt{
			{Works: []int{3}}, {Works: []int{3}, Points: centi(5_00)}, {Works: []int{3}, Points: centi(30_00),
				Beyond: Set(true)}}},
	}
}

// Sellers makes the shop, makers, vendors and bundles.
func (j *RandomJob) Sellers() {
	r := j.Of("sellers")
	st := j.St
	st.Job = catalog.Job{File: "job.toml", Title: fmt.Sprintf("random job %d", j.Seed), Currency: "USD"}
	st.Shop = catalog.Shop{File: "shop.toml", Hourly: Set(Between[catalog.Cents](r, 30_01, 70_99))}
	if r := j.Of("misfit"); j.has("misfit") {
		st.Shop.Misfit = Set(Between[catalog.Micro](r, 1, 400_000))
	}
	if Chance(r, 50) {
		st.Shop.Works = []int{2}
	}
	if j.has("maker") {
		st.Makers = []catalog.Maker{
			{ID: "smith", Hourly: Between[catalog.Cents](r, 40_00, 60_00), Works: []int{2, 3}, Days: 14},
			{ID: "turner", Hourly: Between[catalog.Cents](r, 35_00, 65_00), Works: []int{1, 3}, Days: 30}}
	}
	if j.has("vendor") {
		r := j.Of("vendor")
		st.Vendors = []catalog.Vendor{
			{ID: "barn", Freight: Between[catalog.Cents](r, 0, 45_00), Days: 12},
			{ID: "dock", Freight: Between[catalog.Cents](r, 5_00, 60_00), Days: 25}}
	}
	if j.has("bundle") {
		r := j.Of("bundle")
		b := catalog.Bundle{ID: "crate", Vendor: catalog.None, Price: Between[catalog.Cents](r, 30_00, 260_00)}
		if len(st.Vendors) > 0 && Chance(r, 70) {
			b.Vendor = r.IntN(2)
		}
		if Chance(r, 50) {
			b.Days = Set(18)
		}
		st.Bundles = []catalog.Bundle{b}
	}
}

// Platers makes one or two platers with one or two levels each.
func (j *RandomJob) Platers() {
	for q, id := range []string{"north", "south"} {
		if q == 1 && !j.has("second-plater") {
			return
		}
		r := j.Of("plater " + id)
		p := catalog.Plater{ID: id, Name: id, Days: Between(r, 20, 60), Least: Between[catalog.Cents](r, 15_00, 45_00),
			Works: []int{1}, Factor: Between[catalog.Micro](r, 700_000, 1_600_000)}
		if Chance(r, 40) {
			p.Works = []int{1, 2, 3}
		}
		if Chance(r, 60) {
			p.Hourly = Set(Between[catalog.Cents](r, 30_00, 80_00))
		}
		minimum, freight, fee := Between[catalog.Cents](r, 50_00, 400_00), Between[catalog.Cents](r, 5_00, 60_00),
			Between[catalog.Cents](r, 5_00, 30_00)
		if j.has("minimum") {
			p.Minimum = minimum
		}
		if j.has("freight") {
			p.Freight = freight
		}
		if j.has("strip") {
			p.StripFee = fee
		}
		if j.has("refuses") {
			p.Refuses = []int{j.Of("refuses").IntN(5)}
		}
		p.Levels = []catalog.Level{drawLevel(r, "driver", 20_00, 75_00)}
		if q == 1 || Chance(r, 40) {
			p.Levels = append(p.Levels, drawLevel(r, "show", 45_00, 92_00))
		}
		if q == 1 && Chance(r, 50) {
			p.Levels = p.Levels[1:]
		}
		j.St.Platers = append(j.St.Platers, p)
	}
}

func drawLevel(r *rand.Rand, name string, rate catalog.Cents, grade catalog.Centi) catalog.Level {
	l := catalog.Level{Name: name, Rate: make([]catalog.Val[catalog.Cents], 3),
		Grade: make([]catalog.Val[catalog.Centi], 3)}
	for m := range 3 {
		if m < steel || Chance(r, 70) {
			l.Rate[m] = Set(rate + Between[catalog.Cents](r, -7_77, 15_55))
			l.Grade[m] = Set(grade + Between[catalog.Centi](r, -6_00, 6_00))
		}
	}
	if Chance(r, 60) {
		l.Tone = Set(Between[catalog.Centi](r, -80, 1_50))
	}
	return l
}

// CaseName names a random job so that it can be made again.
func CaseName(seed int64, slots int, rule string) string {
	return fmt.Sprintf("seed%d-slots%d-%s", seed, slots, rule)
}

// ChoiceText shows a choice in the log of a failing test.
func ChoiceText(st *catalog.State, c *plan.Choice) string {
	plater := ""
	if c.Plated() {
		plater = fmt.Sprintf(" at %s %q quote %d", st.Platers[c.Plater].ID, c.Level, c.Quote)
	}
	return fmt.Sprintf("%s %s%s, paid %d, cash %d, fails %d, grade %d", st.Pieces[c.Piece].Key(), c.Work, plater,
		c.ExpectedCost, c.Cash, c.Fails, c.Grade)
}
