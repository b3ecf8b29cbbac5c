// Package record turns what happened at the bench into deeds: which keys of which
// tables change. It checks that things happen in an order that makes sense; whether the
// values are good is checked where all input is, when the deed is tried.
package record

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model"
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
	{"sent", "PIECES", "it went to a plater; several go as one lot, with commas between", "to work level slot cost count strip-first", "to", (*builder).sent},
	{"stripped", "PIECE", "the old plating is off", "defect severity extent count where", "", (*builder).stripped},
	{"priced", "PIECE", "the plater named his price after stripping", "cost grade breakage", "cost", (*builder).priced},
	{"approved", "PIECES", "he was told to go ahead", "", "", (*builder).approved},
	{"refused", "PIECE", "he sends it back after stripping", "cost", "", (*builder).refused},
	{"recalled", "PIECE", "it was taken back before the work was done", "cost", "", (*builder).recalled},
	{"plated", "PIECES", "the work is done", "", "", (*builder).plated},
	{"back", "PIECE", "it came back from the plater", "grade tone cost", "", (*builder).back},
	{"hung", "PIECE", "it hangs in its slot", "slot grade", "", (*builder).hung},
	{"broke", "PIECE", "it broke", "count", "", gone(catalog.StageBroken)},
	{"lost", "PIECE", "it was lost", "count", "", gone(catalog.StageLost)},
	{"sold", "PIECE", "it was sold", "count", "", gone(catalog.StageSold)},
	{"bought", "PIECE or BUNDLE", "it was bought, and is here", "cost freight count", "", (*builder).bought},
	{"came", "PIECE", "a lead came, or what was ordered", "", "", (*builder).came},
	{"failed", "PIECE", "a lead came to nothing", "", "", (*builder).failed},
	{"traded", "TRADE", "a trade was made", "", "", (*builder).traded},
	{"lock", "SLOT", "this choice and no other is wanted in a slot", "piece work to level", "", (*builder).lock},
	{"unlock", "SLOT", "the program decides again", "", "", (*builder).unlock},
	{"ban", "PIECE", "it is not to be used, or not so", "slot work to level", "", (*builder).ban},
	{"unban", "BAN", "a ban is taken back", "", "", (*builder).unban},
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

// Takes says whether an action has a use for a flag.
func (a *Action) Takes(flag string) bool { return slices.Contains(strings.Fields(a.Uses), flag) }

// Deed says what an action changes. The error is for the person who types.
func (a *Action) Deed(d *catalog.Desk, f Facts) (catalog.Deed, error) {
	b := &builder{d: d, st: d.State, deed: catalog.Deed{Action: a.Name, On: f.On, Reason: f.Reason}}
	if err := a.build(b, &f); err != nil {
		return catalog.Deed{}, err
	}
	return b.deed, nil
}

// builder collects what a deed sets.
type builder struct {
	d    *catalog.Desk
	st   *catalog.State
	deed catalog.Deed
	paid int // entries of the ledger added here
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

// piece finds the piece that is meant.
func (b *builder) piece(id string) (int, error) {
	id = strings.TrimSpace(id)
	if i, ok := b.st.FindPiece(id); ok {
		return i, nil
	}
	var names []string
	for i := range b.st.Pieces {
		names = append(names, b.st.PieceLabel(i))
	}
	return 0, fmt.Errorf("no piece is called %q%s", id, meant(id, names))
}

// pieces finds several, with commas between.
func (b *builder) pieces(ids string) ([]int, error) {
	var all []int
	for _, id := range strings.Split(ids, ",") {
		i, err := b.piece(id)
		if err != nil {
			return nil, err
		}
		if slices.Contains(all, i) {
			return nil, fmt.Errorf("piece %q stands there twice", id)
		}
		all = append(all, i)
	}
	return all, nil
}

// slot finds the slot that is meant.
func (b *builder) slot(id string) (int, error) {
	var names []string
	for i := range b.st.Slots {
		if b.st.Slots[i].ID == id {
			return i, nil
		}
		names = append(names, b.st.Slots[i].ID)
	}
	return 0, fmt.Errorf("no slot is called %q%s", id, meant(id, names))
}

// plater finds the plater that is meant.
func (b *builder) plater(id string) (int, error) {
	var names []string
	for i := range b.st.Platers {
		if b.st.Platers[i].ID == id {
			return i, nil
		}
		names = append(names, b.st.Platers[i].ID)
	}
	return 0, fmt.Errorf("no plater is called %q%s", id, meant(id, names))
}

// spend adds to what is spent: cost, or credit where it is below zero.
func (b *builder) spend(cents catalog.Cents, piece int, format string, args ...any) {
	if cents == 0 {
		return
	}
	used := b.d.Keys(false, []string{"spent"})
	n := len(used) + b.paid + 1
	for slices.Contains(used, fmt.Sprint(n)) {
		n++
	}
	b.paid++
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

// name is how the piece is called in messages.
func (b *builder) name(i int) string { return model.PieceName(b.st, i) }

// meant is what may have been meant by a name.
func meant(name string, known []string) string {
	if like := catalog.Closest(name, known); like != "" {
		return fmt.Sprintf("; did you mean %q?", like)
	}
	if len(known) == 0 {
		return "; there is none"
	}
	return "; there are " + strings.Join(known[:min(12, len(known))], ", ")
}
