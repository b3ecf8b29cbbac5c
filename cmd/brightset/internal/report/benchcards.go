package report

import (
	"cmp"
	"slices"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// BenchCard is one piece beside others: the same rows in the same order for all.
type BenchCard struct {
	Key, Label, Title string
	Mark              string // hangs, in reserve, possible, out, gone
	Whose, Kind       string
	Way, Cost, Grade  string // of what is planned with it, or else of the first thing that can be done
	Facts             [][2]string
	Findings          []BenchFinding
	Can               []BenchChoice
	Why               string // why it is out
	AtPlater          string
	Stage             string
	Photos            int
	Lead, ForSale     bool
	Fitted, Hung      bool
	Here              bool // on the bench: neither at a plater's, nor hung, gone or still to come
	Gone              bool
	Stripped, Asked   bool // at a plater's: the plating is off, his price is named
	Settled           bool // he was told to go ahead
	Platable          bool // some plater can do something with it
	Price             string
	Quantity          int
}

// BenchFinding is a fault that was found, by its name in the files.
type BenchFinding struct{ ID, Text string }

// BenchChoice is one thing that can be done with a piece.
type BenchChoice struct {
	Work, Plater, Level string
	Text                string
	Cost, Breaks, Grade string
	Out                 string // why not, "" where it can
	Chosen              bool
}

// BenchCards are the pieces for one slot, the one that hangs first, then the one in
// reserve, then those that could hang, then those that are out. What the set comes to with
// them is not looked at: BenchCosts says that.
func BenchCards(p *plan.Plan, slot int) []BenchCard {
	choices, outs := choice.Choices(p.Of)[slot], choice.ExclusionsFor(p.Of, slot)
	var all []BenchCard
	done := map[int]bool{}
	add := func(i int, mark, set, why string) {
		if !done[i] {
			done[i] = true
			all = append(all, benchCard(p, slot, i, mark, set, why, choices, outs))
		}
	}
	if p.Has {
		l := &p.Lines[slot]
		add(l.Choice.Piece, "hangs", "as advised", "")
		if l.Fallback != nil {
			add(l.Fallback.Piece, "in reserve", "as advised", "")
		}
	}
	can := func(i int) bool {
		return slices.ContainsFunc(choices, func(c plan.Choice) bool {
			return c.Piece == i && len(program.Admit(p.Of, &c, program.Planned)) == 0
		})
	}
	for _, out := range []bool{false, true} {
		for i := range p.Of.Pieces {
			piece := &p.Of.Pieces[i]
			switch {
			case !slices.Contains(piece.Fits, slot) || (piece.Gone() || !can(i)) != out:
			case piece.Gone():
				add(i, "gone", "", "")
			case out:
				add(i, "out", "", "")
			default:
				add(i, "possible", "", "")
			}
		}
	}
	return all
}

// BenchCost is what the whole set comes to with a piece that the plan has no part for.
type BenchCost struct {
	Key  string `json:"key"`
	Mark string `json:"mark"` // dearer, as good, out
	Set  string `json:"set"`  // "12.00 more"; "" where no set has it
	Why  string `json:"why"`  // why it is out, or what it keeps
}

// BenchCosts are those of the pieces that were looked at.
func BenchCosts(p *plan.Plan, rejected []ask.RejectedPiece) []BenchCost {
	var all []BenchCost
	for i := range rejected {
		r := &rejected[i]
		one := BenchCost{Key: p.Of.Pieces[r.Piece].Key()}
		one.Mark, one.Set, one.Why = rejection(p, r)
		if r.Choice != nil {
			one.Set = cmp.Or(one.Set, "the same")
		}
		all = append(all, one)
	}
	return all
}

func benchCard(p *plan.Plan, slot, i int, mark, set, why string, choices []plan.Choice,
	outs []choice.Exclusion) BenchCard {
	piece := &p.Of.Pieces[i]
	card := BenchCard{Key: piece.Key(), Label: p.Of.PieceLabel(i), Title: plan.PieceCalled(p.Of, i),
		Mark: mark, Why: why,
		Stage: stageText(p.Of, piece), Photos: len(piece.Photos), Lead: piece.Chance < catalog.One,
		ForSale: piece.Side != catalog.Customers && piece.Price > 0, Fitted: piece.FittedIn(slot),
		Whose: source(p.Of, piece), Kind: string(piece.Kind), Hung: piece.Stage == catalog.StageHung, Gone: piece.Gone(),
		Stripped: piece.Stage >= catalog.StageStripped, Asked: piece.Stage >= catalog.StagePriced,
		Settled:  piece.Stage >= catalog.StageApproved,
		Quantity: piece.Quantity}
	card.Here = !piece.AtPlater() && !card.Hung && !card.Gone && !card.Lead && !piece.Elsewhere
	if card.ForSale {
		card.Price = catalog.FormatMoney(piece.Price)
	}
	if piece.AtPlater() {
		card.AtPlater = p.Of.Platers[piece.Sent.Plater].ID
	}
	asIs := "not graded"
	if g, ok := choice.AsIsGrade(p.Of, i); ok {
		asIs = gradeText(p.Of, g)
	}
	card.Facts = [][2]string{{"Tag", tagOf(piece)},
		{"Whose, kind", source(p.Of, piece) + ", " + string(piece.Kind) + ", " + metalText(p.Of, piece)},
		{"Stage", card.Stage}, {"As it lies", asIs}}
	if piece.Place != "" {
		card.Facts = append(card.Facts, [2]string{"Lies", piece.Place})
	}
	if set != "" {
		card.Facts = append(card.Facts, [2]string{"The whole set", set})
	}
	for k := range piece.Findings {
		card.Findings = append(card.Findings, BenchFinding{piece.Findings[k].ID, findingText(p.Of, &piece.Findings[k])})
	}
	for k := range choices {
		c := &choices[k]
		if c.Piece != i {
			continue
		}
		one := BenchChoice{Work: c.Work, Level: c.Level, Text: plan.Way(p.Of, c), Cost: catalog.FormatMoney(c.Cash),
			Breaks: Percent(c.Breakage), Grade: gradeText(p.Of, c.Grade),
			Out: whys(program.Admit(p.Of, c, program.Planned))}
		if c.Plated() {
			one.Plater, card.Platable = p.PlaterOf(c).ID, true
		}
		one.Chosen = p.Has && p.Lines[slot].Choice.Piece == i && p.Label(p.Lines[slot].Choice) == p.Label(c)
		held := p.Has && p.Lines[slot].Fallback != nil && p.Label(p.Lines[slot].Fallback) == p.Label(c)
		if one.Chosen || held || card.Way == "" && one.Out == "" {
			card.Way, card.Cost, card.Grade = one.Text, one.Cost, catalog.FormatCenti(c.Grade)
		}
		card.Can = append(card.Can, one)
	}
	if len(card.Can) == 0 && card.Why == "" {
		card.Why = join(cant(p.Of, i, outs))
	}
	return card
}
