package plan

import "brightset/catalog"

// Weighed is what plans are compared by: the total less what the object's own pieces in it
// are worth to the owner. It is no sum of money, and is never shown.
func (p *Plan) Weighed() catalog.Cents { return p.Expected - p.Keeps }

// Weighed is what a line adds to that.
func (l *Line) Weighed() catalog.Cents { return l.Expected - l.Keeps }

// Weighed is what plans of several jobs together are compared by.
func (out *Joint) Weighed() catalog.Cents { return out.Expected - out.Keeps }
