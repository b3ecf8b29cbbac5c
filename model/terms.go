package model

import "brightset/catalog"

// Terms are what a choice that has yet to be sent is expected to come to for one piece:
// what is agreed with the plater when it goes to him.
func Terms(st *catalog.State, c *Choice) catalog.Quote {
	one := st.Clone()
	one.Slots[c.Slot].Quantity = 1
	k := lookup(Choices(one))(c)
	set := func(m catalog.Micro) catalog.Val[catalog.Micro] { return catalog.Val[catalog.Micro]{V: m, Set: true} }
	return catalog.Quote{
		Plater: k.Plater, Work: k.Work, Level: k.Level, Cost: k.Plate,
		Breakage: set(k.Breakage), Refused: set(k.Refused),
		Grade: catalog.Val[catalog.Centi]{V: k.Grade, Set: true}, Tone: catalog.Val[catalog.Centi]{V: k.Tone, Set: true},
		Fresh: catalog.Val[bool]{V: k.Fresh, Set: true},
		Days:  catalog.Val[int]{V: k.Days - arrival(one, &one.Pieces[k.Piece]), Set: true},
	}
}
