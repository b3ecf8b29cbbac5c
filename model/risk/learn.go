package risk

import (
	"cmp"
	"math"
	"slices"

	"brightset/catalog"
)

// Learnt is what a shop's journals teach.
type Learnt struct {
	Count   int
	Metals  []MetalRate
	Platers []PlaterRate
}

// thin is the number of outcomes below which works of one metal are taken together.
const thin = 10

// shareShown is the share of the intervals that are shown.
const shareShown = 0.8

// MetalRate is how often pieces of a metal broke in a work; work "" is all together.
type MetalRate struct {
	Metal       string        `json:"metal"`
	Work        string        `json:"work"`
	N           int           `json:"pieces"`
	Broke       int           `json:"broke"`
	Refused     int           `json:"refused"`
	Predicted   float64       `json:"expected"` // breaks that the starting values led to expect of those worked on
	Mean        float64       `json:"breakage"` // by the posterior, like the rest
	Low         float64       `json:"breakage_low"`
	High        float64       `json:"breakage_high"`
	RefusedMean float64       `json:"refusal"`
	RefusedLow  float64       `json:"refusal_low"`
	RefusedHigh float64       `json:"refusal_high"`
	Pooled      bool          `json:"pooled"` // too few of its own: it is the metal's as a whole
	Start       catalog.Micro `json:"-"`      // of the metal alone, for work "" only: built-in,
	Base        catalog.Micro `json:"-"`      // and as it is learnt
}

// PlaterRate is how a plater's promises came out.
type PlaterRate struct {
	Plater    string  `json:"plater"`
	N         int     `json:"pieces"`
	Ratio     float64 `json:"paid_to_agreed"`
	RatioSD   float64 `json:"paid_to_agreed_spread"` // of single pieces
	RatioLow  float64 `json:"paid_to_agreed_low"`    // interval of the mean, share shareShown
	RatioHigh float64 `json:"paid_to_agreed_high"`
	PaidN     int     `json:"paid_pieces"`
	Low       float64 `json:"spread_low"`     // by what share the prices came out below what was reckoned, at most,
	High      float64 `json:"spread_high"`    // or above it; of the least and dearest of twenty one each is left out
	GuessN    int     `json:"guessed_pieces"` // both mean nothing with fewer than thin
	Late      float64 `json:"days_late"`      // more than promised
	LateSD    float64 `json:"days_late_spread"`
	LateN     int     `json:"days_pieces"`
	Grade     float64 `json:"grade_off"` // points more than promised
	GradeSD   float64 `json:"grade_off_spread"`
	GradeN    int     `json:"grade_pieces"`
	Broke     int     `json:"broke"`
	Refused   int     `json:"refused"`
	Predicted float64 `json:"expected"`        // breaks of those worked on
	Factor    float64 `json:"breakage_factor"` // more or less than predicted, shrunk towards 1
}

// factorStrength is how many predicted breaks a factor of 1 weighs like. Common practice,
// no published source.
const factorStrength = 2

// Learn puts outcomes together. strength is what a starting value weighs, in outcomes.
func Learn(all []Experience, strength int) *Learnt {
	out := &Learnt{Count: pieces(all)}
	metals, works, platers := map[string][]Experience{}, map[[2]string][]Experience{}, map[string][]Experience{}
	for _, x := range all {
		platers[x.Plater] = append(platers[x.Plater], x)
		if x.Metal != "" {
			metals[x.Metal] = append(metals[x.Metal], x)
			works[[2]string{x.Metal, x.Work}] = append(works[[2]string{x.Metal, x.Work}], x)
		}
	}
	bases := catalog.StartingBases()
	for metal, list := range metals {
		whole := rateOf(metal, "", list, strength)
		whole.Start = bases[metal]
		whole.Base = learntBase(whole, strength)
		out.Metals = append(out.Metals, whole)
		for key, part := range works {
			if key[0] != metal {
				continue
			}
			one := rateOf(metal, key[1], part, strength)
			if one.N < thin {
				one.Pooled = true
				one.Mean, one.Low, one.High = whole.Mean, whole.Low, whole.High
				one.RefusedMean, one.RefusedLow, one.RefusedHigh = whole.RefusedMean, whole.RefusedLow,
					whole.RefusedHigh
			}
			out.Metals = append(out.Metals, one)
		}
	}
	worse := map[string]float64{}
	for _, m := range out.Metals {
		if m.Work == "" && m.Start > 0 {
			worse[m.Metal] = float64(m.Base) / float64(m.Start)
		}
	}
	for plater, list := range platers {
		out.Platers = append(out.Platers, platerRate(plater, list, worse))
	}
	slices.SortFunc(out.Metals,
		func(a, b MetalRate) int { return cmp.Or(cmp.Compare(a.Metal, b.Metal), cmp.Compare(a.Work, b.Work)) })
	slices.SortFunc(out.Platers, func(a, b PlaterRate) int { return cmp.Compare(a.Plater, b.Plater) })
	return out
}

// many is how many pieces something happened to.
func (x *Experience) many() int { return max(1, x.Count) }

// pieces is how many pieces outcomes are of.
func pieces(all []Experience) int {
	n := 0
	for i := range all {
		n += all[i].many()
	}
	return n
}

// Tried is how many pieces were worked on: not sent back after stripping.
func (r *MetalRate) Tried() int { return r.N - r.Refused }

// Tried is how many pieces he worked on.
func (r *PlaterRate) Tried() int { return r.N - r.Refused }

func rateOf(metal, work string, list []Experience, strength int) MetalRate {
	r := MetalRate{Metal: metal, Work: work, N: pieces(list)}
	refused, spared := 0.0, 0.0
	for _, x := range list {
		refused += float64(x.many()) * x.PredictedRefused
		if x.Refused {
			r.Refused += x.many()
			spared += float64(x.many()) * x.Predicted
			continue // what was sent back can't have broken in the work
		}
		r.Predicted += float64(x.many()) * x.Predicted
		if x.Broke {
			r.Broke += x.many()
		}
	}
	n, start := float64(r.N), r.Predicted/float64(max(1, r.Tried()))
	if r.Tried() == 0 {
		start = spared / n // nothing is learnt of breaking: it is what it was thought to be
	}
	p := Believe(r.Broke, r.Tried(), start, float64(strength))
	r.Mean = p.Mean()
	r.Low, r.High = p.Interval(shareShown)
	q := Believe(r.Refused, r.N, refused/n, float64(strength))
	r.RefusedMean = q.Mean()
	r.RefusedLow, r.RefusedHigh = q.Interval(shareShown)
	return r
}

// learntBase is the breakage of the metal alone: the built-in one times how much more or
// less often pieces broke than it led to expect, the expectation weighing like strength
// outcomes more.
func learntBase(r MetalRate, strength int) catalog.Micro {
	start := float64(r.Start)
	weight := float64(strength) * r.Predicted / float64(max(1, r.Tried()))
	if start == 0 || r.Predicted+weight == 0 {
		return r.Start
	}
	return catalog.Micro(math.Round(min(start*(float64(r.Broke)+weight)/(r.Predicted+weight), float64(catalog.One))))
}

// platerRate compares with what the metals as they are learnt led to expect, so that
// nothing is put down to a plater that is the metal's.
func platerRate(plater string, list []Experience, worse map[string]float64) PlaterRate {
	r := PlaterRate{Plater: plater, N: pieces(list)}
	var ratios, guesses, late, grade []float64
	for _, x := range list {
		f, ok := worse[x.Metal]
		switch {
		case x.Refused:
			r.Refused += x.many()
		case ok:
			r.Predicted += float64(x.many()) * min(1, f*x.Predicted)
		default:
			r.Predicted += float64(x.many()) * x.Predicted
		}
		if x.Broke {
			r.Broke += x.many()
		}
		if x.PaidKnown && x.Named && x.Agreed > 0 {
			ratios = append(ratios, float64(x.Paid)/float64(x.Agreed))
		}
		if x.PaidKnown && x.Guessed > 0 { // a bag has one price
			guesses = append(guesses, float64(x.Paid)/float64(x.Guessed))
		}
		if x.TookKnown {
			late = append(late, float64(x.Took-x.Promised))
		}
		if x.GradeKnown && x.GradePromised > 0 {
			grade = append(grade, float64(x.Grade-x.GradePromised)/100)
		}
	}
	r.PaidN, r.GuessN, r.LateN, r.GradeN = len(ratios), len(guesses), len(late), len(grade)
	r.Low, r.High = spreadOf(guesses)
	r.Ratio, r.RatioSD = meanAndSpread(ratios)
	r.RatioLow, r.RatioHigh = meanInterval(ratios, shareShown)
	r.Late, r.LateSD = meanAndSpread(late)
	r.Grade, r.GradeSD = meanAndSpread(grade)
	r.Factor = (float64(r.Broke) + factorStrength) / (r.Predicted + factorStrength)
	return r
}

// SpreadKnown says whether there are enough outcomes to go by instead of the starting spread.
func (r *PlaterRate) SpreadKnown() bool { return r.GuessN >= thin }

// spreadOf is how far below and above what was reckoned prices came out, as shares of it. Of
// every twenty the lowest and the highest are left out.
func spreadOf(ratios []float64) (low, high float64) {
	if len(ratios) == 0 {
		return 0, 0
	}
	slices.Sort(ratios)
	out := len(ratios) / 20
	return max(0, 1-ratios[out]), max(0, ratios[len(ratios)-1-out]-1)
}
