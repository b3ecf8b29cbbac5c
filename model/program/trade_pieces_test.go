package program

// What pieces are: how they are sold, and where they have been tried.
var factsOfPieces = []fact{
	// 36 and 14 out of one box are 11.00; 50 loose ones 20.00. A second box for the 51st is dearer than 15 loose ones
	// for 6.00; where loose ones are dear it isn't.
	{says: "what is sold by the box is bought by the box: what one slot leaves of it does for the next, but for one " +
		"screw more no second box is bought while there are loose ones", job: "boxed", cases: []outcome{
		{"fifty", nil, "front: boxed as-is; back: boxed as-is"},
		{"one more", []edit{{"quantity = 14", "quantity = 15"}}, "front: boxed as-is; back: loose as-is"},
		{"one more, and loose ones are dear", []edit{{"quantity = 14", "quantity = 15"}, {`"0.40"`, `"0.80"`}},
			"front: boxed as-is; back: boxed as-is"},
		{"one more, and no second box", []edit{{"quantity = 14", "quantity = 15"}, {`"0.40"`, `"0.80"`},
			{"quantity = 150", "quantity = 50"}}, "front: boxed as-is; back: loose as-is"},
		{"a dear box", []edit{{`"11.00"`, `"20.01"`}}, "front: loose as-is; back: loose as-is"},
		{"a box that holds more", []edit{{"quantity = 14", "quantity = 15"}, {"box = 50\nquantity = 150", "box = 60"}},
			"front: boxed as-is; back: boxed as-is"},
	}},
	{says: "that a reproduction fits on the right is no proof that it does on the left: it hangs where it has been tried",
		job: "fitted", cases: []outcome{
			{"nowhere yet", []edit(nil), "left: new as-is; right: worn replate oxley driver"},
			{"on the left, where some don't fit", []edit{misfits, {"# fitted", "fitted"}},
				"left: new as-is; right: worn replate oxley driver"},
			{"on the right", []edit{misfits, {`# fitted = ["left"]`, `fitted = ["right"]`}},
				"left: worn replate oxley driver; right: new as-is"},
		}},
}
