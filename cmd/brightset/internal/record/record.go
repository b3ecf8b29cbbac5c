// Package record turns what happened at the bench into deeds: which keys of which
// tables change. It checks that things happen in an order that makes sense; whether the
// values are good is checked where all input is, when the act is tried.
package record

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// Facts is what is known about something that happened. What an action has no use for is
// left empty.
type Facts struct {
	Target string // piece, several with commas between; slot, bundle, trade, ban or text

	Fits, Kind, Metal, Owner, Name, Tag, Place, Marks, Quantity, Value, Chance string // of a new piece
	Defect, Severity, Extent, Count, Where                                     string // of a finding
	Grade, Tone, Days, Breakage                                                string
	Cost, Credit, Freight                                                      string // money
	To, Work, Level, Firm                                                      string
	Slot, Piece                                                                string
	StripFirst                                                                 bool
	NewLot                                                                     bool // a lot of its own, though one goes to the plater that day
	On, Reason                                                                 string
}

// Action is one kind of thing that can be recorded.
type Action struct {
	Name   string
	Target string // what it is about, for the help: PIECE, SLOT ...
	Says   string // one line of help
	Uses   string // names of the flags it takes, with spaces between
	Needs  string // those that have to be there
	build  func(*builder, *Facts) error
}

// Actions are all that can be recorded, in the order of a job.
var Actions = []Action{
	{"new", "PIECE", "a piece turned up that no file names", "fits kind metal owner cost quantity grade chance days name tag place marks value", "fits kind metal", (*builder).newPiece},
	{"found", "PIECE", "a fault was found on it", "defect severity extent count where", "defect", (*builder).found},
	{"cleared", "PIECE", "a fault is not there after all: DEFECT is the finding's name", "defect", "defect", (*builder).cleared},
	{"graded", "PIECE", "it was graded by eye", "grade tone", "grade", (*builder).graded},
	{"quoted", "PIECE", "a plater named a price for it", "to cost level work firm breakage grade days", "to cost", (*builder).quoted},
	{"fitted", "PIECES", "tried on the object: it fits without bending", "", "", (*builder).fitted},
	{"sent", "PIECES", "it went to a plater; several go as one lot, with commas between", "to work level slot cost count strip-first new-lot", "to", (*builder).sent},
	{"stripped", "PIECE", "the old plating is off", "defect severity extent count where", "", (*builder).stripped},
	{"priced", "PIECE", "the plater named his price after stripping", "cost grade breakage", "cost", (*builder).priced},
	{"approved", "PIECES", "he was told to go ahead", "", "", (*builder).approved},
	{"refused", "PIECE", "he sends it back after stripping", "cost", "", (*builder).refused},
	{"recalled", "PIECE", "it was taken back before the work was done", "cost", "", (*builder).recalled},
	{"plated", "PIECES", "the work is done", "", "", (*builder).plated},
	{"back", "PIECE", "it came back from the plater", "grade tone cost", "", (*builder).back},
	{"hung", "PIECE", "it hangs in its slot", "slot grade", "", (*builder).hung},
	{"unhung", "PIECE", "it was taken down again", "", "", (*builder).unhung},
	{"broke", "PIECE", "it broke", "count", "", gone(catalog.StageBroken)},
	{"lost", "PIECE", "it was lost", "count", "", gone(catalog.StageLost)},
	{"sold", "PIECE", "it was sold", "count credit", "", gone(catalog.StageSold)},
	{"bought", "PIECE or BUNDLE", "it was bought, and is here; --cost for all of it", "cost freight count", "", (*builder).bought},
	{"came", "PIECE", "a lead came, or what was ordered", "", "", (*builder).came},
	{"failed", "PIECE", "a lead came to nothing", "", "", (*builder).failed},
	{"traded", "TRADE", "a trade was made", "", "", (*builder).traded},
	{"lock", "SLOT", "this choice and no other is wanted in a slot", "piece work to level", "", (*builder).lock},
	{"unlock", "SLOT", "the program decides again", "", "", (*builder).unlock},
	{"ban", "PIECE", "it is not to be used, or not so", "slot work to level", "", (*builder).ban},
	{"unban", "BAN or PIECE", "a ban is taken back", "", "", (*builder).unban},
	{"spent", "TEXT", "money went out, or came in, for something else", "cost credit", "", (*builder).spent},
	{"note", "TEXT", "something worth remembering", "", "", (*builder).note},
}

// Find gives the action of a name.
func Find(name string) (*Action, bool) {
	i := slices.IndexFunc(Actions, func(a Action) bool { return a.Name == name })
	if i < 0 {
		return nil, false
	}
	return &Actions[i], true
}

// Deed says what an action changes. The error is for the person who types.
func (a *Action) Deed(d *catalog.Recorder, f Facts) (catalog.Act, error) {
	if err := f.tidy(); err != nil {
		return catalog.Act{}, err
	}
	b := &builder{d: d, st: d.State, deed: catalog.Act{Action: a.Name, On: f.On, Reason: f.Reason}}
	if err := a.build(b, &f); err != nil {
		return catalog.Act{}, err
	}
	if a.Name != "note" && !d.Changes(&b.deed) {
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
}

func (b *builder) set(shop bool, target []string, key string, value any) {
	if s, ok := value.(string); ok && s == "" {
		return
	}
	b.deed.Sets = append(b.deed.Sets, catalog.Set{Shop: shop, Target: target, Key: key, Value: value})
}

// clear takes a whole table out.
func (b *builder) clear(shop bool, target []string) {
	for _, key := range b.d.Keys(shop, target) {
		b.set(shop, target, key, nil)
	}
}

// of is the table of a piece, or one below it.
func (b *builder) of(i int, below ...string) (shop bool, target []string) {
	p := &b.st.Pieces[i]
	return p.InShop, append([]string{"piece", p.ID}, below...)
}

// setPiece sets a key of a piece.
func (b *builder) setPiece(i int, key string, value any) {
	shop, target := b.of(i)
	b.set(shop, target, key, value)
}

// spend adds to what is spent: cost, or credit where it is below zero.
func (b *builder) spend(cents catalog.Cents, piece int, format string, args ...any) {
	if cents == 0 {
		return
	}
	used := slices.Concat(b.d.Keys(false, []string{"spent"}), b.paid)
	n := len(used) + 1
	for slices.Contains(used, fmt.Sprint(n)) {
		n++
	}
	b.paid = append(b.paid, fmt.Sprint(n))
	target := []string{"spent", fmt.Sprint(n)}
	b.set(false, target, "for", fmt.Sprintf(format, args...))
	key := "cost"
	if cents < 0 {
		key, cents = "credit", -cents
	}
	b.set(false, target, key, catalog.FormatMoney(cents))
	if piece != catalog.None {
		b.set(false, target, "piece", b.st.Pieces[piece].Key())
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
