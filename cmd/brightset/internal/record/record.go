// Package record turns what happened at the bench into deeds: which keys of which
// tables change. It checks that things happen in an order that makes sense; whether the
// values are good is checked where all input is, when the act is tried.
package record

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/catalog/event"
)

// Facts is what is known about something that happened. What an action has no use for is
// left empty.
type Facts struct {
	Target string  // piece, several with commas between; slot, bundle, trade, ban or text
	Each   []Facts // what is otherwise for single pieces of several, by the Target of each

	Fits, Kind, Metal, Owner, Name, Tag, Place, Marks, Quantity, Value, Chance string // of a new piece
	Box                                                                        string // how many are in one
	Defect, Severity, Extent, Count, Where                                     string // of a finding
	Grade, Tone, Days, Breakage                                                string
	Cost, Credit, Freight                                                      string // money
	To, Work, Level, Firm                                                      string
	Slot, Piece                                                                string
	From, Price                                                                string // of a purchase
	Bundle                                                                     string // out of which a piece comes
	Part, Area, Weight, Goal, Floor, With                                      string // of a position; Goal is its target
	Minimum, Hourly, Least, StripFee, Rate                                     string // of a plater
	Works, Low, High, Give, Get                                                string // of a maker, an avenue, a trade
	Slots, GradeWithin, ToneWithin                                             string // of a match group
	Budget, Completion, Mean                                                   string // of the whole job
	What                                                                       string // the kind of table that is removed
	SamePlater, FreshAlike                                                     bool
	StripFirst                                                                 bool
	Harmless                                                                   bool
	// it happened, though it was agreed otherwise
	Anyway bool
	// a lot of its own, though one goes to the plater that day
	NewLot     bool
	On, Reason string
}

// Action is one kind of thing that can be recorded.
type Action struct {
	Name   event.Action
	Target string // what it is about, for the help: PIECE, SLOT ...
	Says   string // one line of help
	Uses   string // names of the flags it takes, with spaces between
	Needs  string // those that have to be there
	build  func(*builder, *Facts) error
}

// Actions are all that can be recorded, in the order of a job.
var Actions = []Action{
	{event.New, "PIECE", "a piece turned up that no file names", "fits kind metal owner cost quantity box grade chance " +
		"days name tag place marks value bundle", "fits kind metal", (*builder).newPiece},
	{event.Found, "PIECES", "a fault was found on it", "defect severity extent count where harmless", "defect",
		each((*builder).found)},
	{event.Cleared, "PIECE", "a fault is not there after all: DEFECT is the finding's name", "defect", "defect",
		(*builder).cleared},
	{event.Graded, "PIECES", "it was graded by eye", "grade tone", "grade", each((*builder).graded)},
	{event.Quoted, "PIECE", "a plater named a price for it", "to cost level work firm breakage grade days", "to cost",
		(*builder).quoted},
	{event.Fitted, "PIECES", "tried on the object where it is to hang: it fits there without bending", "slot", "",
		(*builder).fitted},
	{event.Joined, "BAG", "so many of another bag, --piece, that match it in the hand were put with it: all, or " +
		"--count; what was found on either counts for all", "piece count", "piece", (*builder).joined},
	{event.Sent, "PIECES", "it went to a plater, who strips it and names his price first, unless one is firm or --cost " +
		"says what was agreed; several go as one lot", "to work level slot cost count strip-first new-lot anyway", "to",
		(*builder).sent},
	{event.Stripped, "PIECES", "the old plating is off", "defect severity extent count where harmless", "",
		each((*builder).stripped)},
	{event.Priced, "PIECES", "the plater named his price after stripping", "cost grade breakage anyway", "cost",
		each((*builder).priced)},
	{event.Approved, "PIECES", "he was told to go ahead", "", "", (*builder).approved},
	{event.Refused, "PIECES", "he sends it back after stripping", "cost", "", each((*builder).refused)},
	{event.Recalled, "PIECES", "it was taken back before the work was done", "cost", "", each((*builder).recalled)},
	{event.Plated, "PIECES", "the work is done", "", "", (*builder).plated},
	{event.Back, "PIECES", "it came back from the plater", "grade tone cost anyway", "", each((*builder).back)},
	{event.Hung, "PIECES", "it hangs in its slot", "slot grade anyway", "", each((*builder).hung)},
	{event.Unhung, "PIECES", "it was taken down again", "", "", each((*builder).unhung)},
	{event.Broke, "PIECES", "it broke", "count", "", each(gone(catalog.StageBroken))},
	{event.Lost, "PIECES", "it was lost", "count", "", each(gone(catalog.StageLost))},
	{event.Sold, "PIECES", "it was sold", "count credit anyway", "", each(gone(catalog.StageSold))},
	{event.Bought, "PIECES or BUNDLE", "it was bought, and is here; --price for all of it; what no file names needs " +
		"--fits --kind --metal too", "price cost from freight count fits kind metal name tag place grade anyway", "",
		(*builder).bought},
	{event.Came, "PIECES", "a lead came, or what was ordered", "", "", each((*builder).came)},
	{event.Failed, "PIECES", "a lead came to nothing", "", "", each((*builder).failed)},
	{event.Traded, "TRADE", "a trade was made", "", "", (*builder).traded},
	{event.Lock, "SLOT", "this choice and no other is wanted in a slot", "piece work to level", "", (*builder).lock},
	{event.Unlock, "SLOT", "the program decides again", "", "", (*builder).unlock},
	{event.Ban, "PIECE", "it is not to be used, or not so", "slot work to level", "", (*builder).ban},
	{event.Unban, "BAN or PIECE", "a ban is taken back", "", "", (*builder).unban},
	{event.Spent, "TEXT", "money went out, or came in, for something else", "cost credit", "", (*builder).spent},
	{event.Note, "TEXT", "something worth remembering", "", "", (*builder).note},
	{event.Slot, "SLOT", "a place in the set, new or changed; --with is another one that is seen together with it",
		"name part area weight quantity target floor with", "", (*builder).position},
	{event.Plater, "PLATER", "a plater, new or changed; --level with --metal, --rate for a dm2 and --grade is what he " +
		"takes and how fine it gets", "name minimum freight days hourly least strip-fee level metal rate grade tone", "",
		(*builder).platerTerms},
	{event.Vendor, "VENDOR", "who sells, new or changed", "name freight days", "", (*builder).vendorTerms},
	{event.Maker, "MAKER", "somebody who does single works, new or changed; --works with commas between",
		"name hourly works days", "", (*builder).makerTerms},
	{event.Bundle, "BUNDLE", "several pieces for one price, new or changed; the pieces name it", "from price days", "",
		(*builder).bundleTerms},
	{event.Bundled, "PIECES", "they come out of a bundle, and have no price of their own", "bundle", "bundle",
		each((*builder).bundled)},
	{event.Unbundled, "PIECES", "they are sold by themselves after all, each for its price", "cost", "cost",
		each((*builder).unbundled)},
	{event.Match, "MATCH", "slots that are seen together, new or changed; --slots with commas between",
		"slots same-plater fresh-alike grade-within tone-within", "", (*builder).matchTerms},
	{event.Avenue, "AVENUE", "somewhere to look for a piece, new or changed; --price is the likely one, --cost of one " +
		"try", "slot kind chance price low high cost days where", "", (*builder).avenueTerms},
	{event.Trade, "TRADE", "a piece that may be given for another, new or changed", "give get credit", "",
		(*builder).tradeTerms},
	{event.Terms, "job", "what is asked of the whole job is another: --target, --budget ...",
		"target mean budget days completion", "", (*builder).jobTerms},
	{event.Removed, "NAME", "what nothing rests on and nothing happened to is taken away; --what kind it is of, where " +
		"several are called that", "what", "", (*builder).removed},
}

// Find gives the action of a name.
func Find(name string) (*Action, bool) {
	i := slices.IndexFunc(Actions, func(a Action) bool { return string(a.Name) == name })
	if i < 0 {
		return nil, false
	}
	return &Actions[i], true
}

// Names are what all actions are called.
func Names() (names []string) {
	for i := range Actions {
		names = append(names, string(Actions[i].Name))
	}
	return names
}

// Deed says what an action changes. The error is for the person who types.
func (a *Action) Deed(d *catalog.Recorder, f Facts) (catalog.Act, error) {
	if err := f.tidy(); err != nil {
		return catalog.Act{}, err
	}
	b := &builder{d: d, st: d.State, hangs: map[int]int{}, deed: catalog.Act{Action: a.Name, On: f.On, Reason: f.Reason}}
	if err := a.build(b, &f); err != nil {
		return catalog.Act{}, err
	}
	if len(b.clashes) > 0 && !f.Anyway {
		return catalog.Act{}, &Clash{Against: b.clashes}
	}
	if a.Name != event.Note && !d.Changes(&b.deed) {
		return catalog.Act{}, fmt.Errorf("nothing would change: things stand like that already")
	}
	return b.deed, nil
}

// builder collects what an act sets.
type builder struct {
	d    *catalog.Recorder
	st   *catalog.State
	deed catalog.Act
	paid []string // entries of the ledger added here

	hangs   map[int]int // slot -> the piece that is hung there by this act
	clashes []string    // what the act goes against
}

func (b *builder) set(shop bool, target event.Target, key event.Key, value any) {
	if s, ok := value.(string); ok && s == "" {
		return
	}
	b.deed.Sets = append(b.deed.Sets, catalog.Set{Shop: shop, Target: target, Key: key, Value: value})
}

// clear takes a whole table out.
func (b *builder) clear(shop bool, target event.Target) {
	for _, key := range b.d.Keys(shop, target) {
		b.set(shop, target, event.Key(key), nil)
	}
}

// of is the table of a piece.
func (b *builder) of(i int) (shop bool, target event.Target) {
	p := &b.st.Pieces[i]
	return p.InShop, event.Of(event.TablePiece, p.ID)
}

// below is a table below that of a piece, or without a name all of that kind.
func (b *builder) below(i int, part event.Table, name ...string) (shop bool, target event.Target) {
	shop, target = b.of(i)
	return shop, target.Below(part, name...)
}

// setPiece sets a key of a piece.
func (b *builder) setPiece(i int, key event.Key, value any) {
	shop, target := b.of(i)
	b.set(shop, target, key, value)
}

// spend adds to what is spent: cost, or credit where it is below zero.
func (b *builder) spend(cents catalog.Cents, piece int, format string, args ...any) {
	b.spendAs(catalog.BearsPlating, cents, piece, format, args...)
}

// spendAs is the same with the markup that the owner is charged on it.
func (b *builder) spendAs(bears catalog.Bears, cents catalog.Cents, piece int, format string, args ...any) {
	if cents == 0 {
		return
	}
	used := slices.Concat(b.d.Keys(false, event.Of(event.TableSpent)), b.paid)
	n := len(used) + 1
	for slices.Contains(used, fmt.Sprint(n)) {
		n++
	}
	b.paid = append(b.paid, fmt.Sprint(n))
	target := event.Of(event.TableSpent, fmt.Sprint(n))
	b.set(false, target, event.KeyFor, fmt.Sprintf(format, args...))
	key := event.KeyCost
	if cents < 0 {
		key, cents = event.KeyCredit, -cents
	}
	b.set(false, target, key, catalog.FormatMoney(cents))
	if bears != catalog.BearsPlating {
		b.set(false, target, event.KeyMarkup, bears.String())
	}
	if piece != catalog.None {
		b.set(false, target, event.KeyPiece, b.st.Pieces[piece].Key())
	}
}

// money reads an amount typed.
func money(what, text string) (catalog.Cents, error) {
	c, err := catalog.ParseMoney(text)
	if err != nil {
		return 0, fmt.Errorf("--%s: %w", what, err)
	}
	return c, nil
}
