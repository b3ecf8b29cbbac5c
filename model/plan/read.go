package plan

import "brightset/catalog"

// SlotOf is the slot that a line of the plan fills.
func (p *Plan) SlotOf(l *Line) *catalog.Slot { return &p.Of.Slots[l.Slot] }

// PieceOf is the piece of a choice.
func (p *Plan) PieceOf(c *Choice) *catalog.Piece { return &p.Of.Pieces[c.Piece] }

// PlaterOf is who plates the piece of a choice that is plated.
func (p *Plan) PlaterOf(c *Choice) *catalog.Plater { return &p.Of.Platers[c.Plater] }

// NameOf is how the piece of a choice is called.
func (p *Plan) NameOf(c *Choice) string { return PieceName(p.Of, c.Piece) }

// BudgetLeft is what the plan leaves of what is still there of the budget; below zero where
// it goes beyond, and of no meaning where the job has none.
func (p *Plan) BudgetLeft() catalog.Cents {
	return p.Of.Job.Budget.V - p.Of.Job.Budgeted(p.Outlay, p.Expected)
}

// Label names a choice in a word or two, whether it is in the plan or might have been.
func (p *Plan) Label(c *Choice) string { return Label(p.Of, c) }
