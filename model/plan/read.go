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
func (p *Plan) BudgetLeft() catalog.Cents { return p.LeftOf(&p.Of.Job) }

// LeftOf is what the plan leaves of the budget of a job that may differ from its own.
func (p *Plan) LeftOf(job *catalog.Job) catalog.Cents {
	switch job.BudgetOn {
	case catalog.OnExpected:
		return job.Budget.V - p.Expected
	case catalog.OnQuote: // what is spent is in the quote, with its markup
		return job.Budget.V + job.SpentSum - p.ForOwner().Total
	}
	return job.Budget.V - p.Outlay
}

// Label names a choice in a word or two, whether it is in the plan or might have been.
func (p *Plan) Label(c *Choice) string { return Label(p.Of, c) }
