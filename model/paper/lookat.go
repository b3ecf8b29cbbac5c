package paper

import (
	"cmp"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// ConcernKind says what a careful friend would point out.
type ConcernKind int

const (
	ConcernIgnored    ConcernKind = iota // of what is recorded not all applies any more
	ConcernUnpriced                      // what is to be bought counts as free, since nobody has named a price
	ConcernBudget                        // one job in ten like this one goes above the budget
	ConcernOwner                         // the owner's quote is above the budget
	ConcernDate                          // one in ten is late
	ConcernBags                          // two bags on the bench would do where something is to be bought
	ConcernPairSplit                     // pieces that are seen together go in more than one lot
	ConcernShared                        // one spare is held for two positions
	ConcernIrreplaced                    // a piece may break, and only a rescue stands behind it
	ConcernGuess                         // money that rests on nobody's quote; the last
)

// Concern is one thing to look at before anything is done.
type Concern struct {
	Kind   ConcernKind
	Slots  []int         // whose it is; none: of the set
	Match  int           // ConcernPairSplit: the group
	Chance catalog.Micro // how likely it is
	Cents  catalog.Cents // how far above, what the rescue costs, or what is guessed
	Days   int           // ConcernDate: how many too late
	Count  int           // ConcernIgnored: of entries
}

// Outlook is what is known besides the plan of how it may turn out: what nine jobs in ten
// like this one stay under, and what the owner is quoted.
type Outlook struct {
	Nine  catalog.Cents // what is paid in nine of ten jobs, or less
	Days  int           // by which nine of ten hang; 0 where it isn't known
	Owner catalog.Cents // what the owner is quoted, tax included; 0 where he isn't
}

// Concerns lists what to look at, the weightiest kind first and within a kind what costs
// most when it comes.
func Concerns(pl *plan.Plan, o Outlook) []Concern {
	st := pl.Of
	all := append(Ignored(st), unpriced(pl)...)
	job := &st.Job
	over := o.Nine - job.Budget.V
	if job.BudgetOn == catalog.OnQuote { // what comes on top is passed on
		over = plan.OwnerOnTop(&st.Quote, max(0, o.Nine-pl.Outlay)) - pl.BudgetLeft()
	}
	if job.Budget.Set && job.BudgetOn != catalog.OnExpected && over > 0 {
		all = append(all, Concern{Kind: ConcernBudget, Cents: over})
	}
	if over := o.Owner - job.Budget.V - job.SpentSum; job.Budget.Set && o.Owner > 0 && over > 0 {
		all = append(all, Concern{Kind: ConcernOwner, Cents: over})
	}
	if late := o.Days - job.WithinDays.V; job.WithinDays.Set && late > 0 {
		all = append(all, Concern{Kind: ConcernDate, Days: late})
	}
	for i := range pl.Lines {
		if bag, _, _ := choice.TwoBags(st, pl.Lines[i].Choice); bag != catalog.None {
			all = append(all, Concern{Kind: ConcernBags, Slots: []int{pl.Lines[i].Slot}})
		}
	}
	all = append(all, pairsSplit(pl)...)
	all = append(all, shared(pl)...)
	all = append(all, unbacked(pl)...)
	return append(all, guessed(pl)...)
}

// Ignored finds entries that don't apply any more, and what they spent.
func Ignored(st *catalog.State) []Concern {
	if st.Record == nil || len(st.Record.Ignored) == 0 {
		return nil
	}
	return []Concern{{Kind: ConcernIgnored, Count: len(st.Record.Ignored), Cents: st.Record.IgnoredSum()}}
}

// unpriced finds what the plan buys, or holds in reserve, of which no price is given.
func unpriced(pl *plan.Plan) []Concern {
	c := Concern{Kind: ConcernUnpriced}
	for i := range pl.Lines {
		l := &pl.Lines[i]
		if pl.Of.Pieces[l.Choice.Piece].Unpriced || l.Fallback != nil && pl.Of.Pieces[l.Fallback.Piece].Unpriced {
			c.Slots = append(c.Slots, l.Slot)
		}
	}
	if len(c.Slots) == 0 {
		return nil
	}
	return []Concern{c}
}

// pairsSplit finds match groups whose pieces go to platers in more than one lot: those
// already there against those still to go, or to several platers.
func pairsSplit(pl *plan.Plan) []Concern {
	type lot struct {
		plater int
		lot    string
	}
	var all []Concern
	for m := range pl.Of.Matches {
		var lots []lot
		for _, s := range pl.Of.Matches[m].Slots {
			c := pl.Lines[s].Choice
			if !c.Plated() {
				continue
			}
			l := lot{plater: c.Plater}
			if c.Sent {
				l.lot = pl.Of.Pieces[c.Piece].Sent.Lot
			}
			if !slices.Contains(lots, l) {
				lots = append(lots, l)
			}
		}
		if len(lots) > 1 {
			all = append(all, Concern{Kind: ConcernPairSplit, Match: m, Slots: pl.Of.Matches[m].Slots})
		}
	}
	return all
}

// shared finds spares that are held for two positions.
func shared(pl *plan.Plan) []Concern {
	var all []Concern
	for i := range pl.Lines {
		if l := &pl.Lines[i]; l.Sharing != nil && l.Sharing.Yields {
			all = append(all, Concern{Kind: ConcernShared, Slots: []int{l.Sharing.With, l.Slot},
				Cents: choice.Rescue(pl.Of, l.Slot)})
		}
	}
	return all
}

// unbacked finds pieces that may fail and behind which only a rescue stands, what is to
// be expected of it first.
func unbacked(pl *plan.Plan) []Concern {
	var all []Concern
	for i := range pl.Lines {
		l := &pl.Lines[i]
		if l.Fallback == nil && l.Choice.Fails >= catalog.One/100 {
			all = append(all, Concern{
				Kind:   ConcernIrreplaced,
				Slots:  []int{l.Slot},
				Chance: l.Choice.Fails,
				Cents:  choice.Rescue(pl.Of, l.Slot),
			})
		}
	}
	slices.SortStableFunc(all, func(a, b Concern) int {
		return -cmp.Compare(catalog.Of(a.Chance, a.Cents), catalog.Of(b.Chance, b.Cents))
	})
	return all
}

// guessed adds up what platers are reckoned to charge that none of them has named.
func guessed(pl *plan.Plan) []Concern {
	c := Concern{Kind: ConcernGuess}
	t := &todo{pl: pl, st: pl.Of}
	for i := range pl.Lines {
		if k := pl.Lines[i].Choice; k.InLot() && !t.quoted(k) {
			c.Slots = append(c.Slots, k.Slot)
			c.Cents += k.Plate
		}
	}
	if len(c.Slots) == 0 {
		return nil
	}
	return []Concern{c}
}
