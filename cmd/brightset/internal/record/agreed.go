package record

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// Clash is an act that goes against what was agreed. It is refused until it is said that
// it happened all the same (Facts.Anyway).
type Clash struct{ Against []string }

func (c *Clash) Error() string {
	return strings.Join(c.Against, "; ") + "; if it happened all the same, type it again with --anyway"
}

// against notes what an act goes against.
func (b *builder) against(format string, args ...any) {
	b.clashes = append(b.clashes, fmt.Sprintf(format, args...))
}

// agreed holds a choice that is acted upon against the bans, the lock on its slot, and the
// plan that is followed.
func (b *builder) agreed(c *plan.Choice) {
	for k := range b.st.Bans {
		if ban := &b.st.Bans[k]; program.Matches(&ban.Filter, c) {
			b.against("ban %q forbids that%s", ban.ID, because(ban.Reason))
			return
		}
	}
	for k := range b.st.Locks {
		l := &b.st.Locks[k]
		if done := choice.AsDone(b.st, c, l.Work); l.Slot == c.Slot && !program.Matches(&l.Filter, c) &&
			!program.Matches(&l.Filter, &done) {
			b.against("%s is locked on something else%s", b.st.Slots[c.Slot].ID, because(l.Reason))
			return
		}
	}
	b.followed(c)
}

func because(reason string) string {
	if reason == "" {
		return ""
	}
	return " (" + reason + ")"
}

// followed holds a choice against the plan that was kept: a piece that it has another
// plater, level or slot for, and a slot that it has another piece for, to hang or in reserve.
func (b *builder) followed(c *plan.Choice) {
	if b.st.Kept == nil {
		return
	}
	p := &b.st.Pieces[c.Piece]
	day := b.st.Kept.On.Format("2006-01-02")
	for _, l := range b.st.Kept.Lines {
		if l.Piece != p.Key() || !c.Plated() || l.Plater == "" {
			continue
		}
		if who := b.st.Platers[c.Plater].ID; l.Plater != who || l.Level != c.Level {
			b.against("the plan kept on %s sends %s to %s", day, b.name(c.Piece), strings.TrimSpace(l.Plater+" "+l.Level))
		}
		return
	}
	for _, l := range b.st.Kept.Lines {
		has := b.isKept(l.Piece, c.Piece) || l.Fallback != nil && b.isKept(l.Fallback.Piece, c.Piece)
		if l.Slot == b.st.Slots[c.Slot].ID && !has {
			b.against("the plan kept on %s has %s for %s, not %s", day, b.keyName(l.Piece), l.Slot, b.name(c.Piece))
		}
	}
}

// isKept says whether a piece is the one that a kept plan names, or what another job has left
// of that bag.
func (b *builder) isKept(key string, piece int) bool {
	p := &b.st.Pieces[piece]
	if key == p.Key() {
		return true
	}
	i, known := b.st.FindPiece(key)
	return known && b.st.Pieces[i].Elsewhere && b.restOf(i) == piece
}

// keyName is what a piece of the kept plan is called.
func (b *builder) keyName(key string) string {
	if i, ok := b.st.FindPiece(key); ok {
		return b.name(i)
	}
	return key
}

// dearer notes that a plater charges more for a piece than he was told to go ahead for.
func (b *builder) dearer(i int, sent *catalog.Sent, cost catalog.Cents) {
	agreed := sent.Quoted.Or(false) || sent.Firm == catalog.Firm
	if agreed && b.st.Pieces[i].Stage >= catalog.StageApproved && cost > sent.Cost {
		b.against("%s was to do %s for %s, not %s", b.st.Platers[sent.Plater].ID, b.name(i),
			catalog.FormatMoney(sent.Cost), catalog.FormatMoney(cost))
	}
}

// wantedStill notes that a piece is given away that the plan that was kept hangs.
func (b *builder) wantedStill(i int) {
	if b.st.Kept == nil {
		return
	}
	for _, l := range b.st.Kept.Lines {
		if l.Piece == b.st.Pieces[i].Key() {
			b.against("the plan kept on %s hangs %s in %s", b.st.Kept.On.Format("2006-01-02"), b.name(i), l.Slot)
			return
		}
	}
}
