package program

// What is done to a piece: in which metal, by whom and when.
var factsOfWorks = []fact{
	{says: "pinholes in pot metal come through new plating, and so they are levelled first, in steel they are plated " +
		"over: of two knobs a worn one of pot metal is worth its price, one of steel is not", job: "pinholes",
		cases: []outcome{
			{"pot metal", nil, "knob: worn replate oxley driver / pitted"},
			{"steel", []edit{{`metal = "pot metal"`, `metal = "steel"`}}, "knob: pitted replate oxley driver / worn"},
			{"a shop that plates over them", []edit{{"[maker.fenwick]",
				"[defect.pits.light]\nworks_in = { \"pot metal\" = [] }\n\n[maker.fenwick]"}},
				"knob: pitted replate oxley driver / worn"},
			{"a shop that fills them in steel too", []edit{{`metal = "pot metal"`, `metal = "steel"`}, {"[maker.fenwick]",
				"[defect.pits.light]\nworks = [\"fill pits\"]\n\n[maker.fenwick]"}},
				"knob: worn replate oxley driver / pitted"},
		}},
	{says: "paint in worn letters goes on after plating: where nobody lays it in, a plate without letters is bought, " +
		"where the shop does it, the lettered one is kept, unless it takes a week", job: "lettered", cases: []outcome{
		{"nobody lays paint in", nil, "plate: plain replate oxley show"},
		{"the shop does", []edit{{`hourly = "50.00"`, "hourly = \"50.00\"\nworks = [\"renew fill\"]"}},
			"plate: painted repair-replate oxley show / plain"},
		{"sixty fields of it", []edit{{`hourly = "50.00"`, "hourly = \"50.00\"\nworks = [\"renew fill\"]"},
			{"count = 2", "count = 60"}}, "plate: plain replate oxley show"},
	}},
}
