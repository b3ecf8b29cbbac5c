package catalog

// readAvenues reads [avenue.NAME]: where to look for a piece, and what a try costs.
func (l *loader) readAvenues() {
	if l.job == nil {
		return
	}
	for _, t := range l.job.named("avenue") {
		a := Avenue{ID: t.id, Slot: None, Where: t.text("where"), Cost: t.money("cost").V,
			Chance: One, Days: t.whole("days", 0, MaxDays).V, From: t.here()}
		if t.need("slot", `write slot = "...", the slot a piece is looked for`) {
			a.Slot = t.ref("slot", l.slots)
		}
		if t.need("kind", `write kind = "original", "old-stock" or "reproduction"`) {
			a.Kind = Kind(t.word("kind", string(Original), string(OldStock), string(Reproduction)))
		}
		if t.need("chance", "write chance = 0.3, the chance that a try finds one") {
			a.Chance = t.share("chance").V
		}
		t.prices(&a)
		if a.Slot != None {
			l.state.Avenues = append(l.state.Avenues, a)
		}
		t.done()
	}
}

// prices reads low, likely and high; likely alone stands for all three.
func (t *table) prices(a *Avenue) {
	low, high := t.money("low"), t.money("high")
	if !t.need("likely", `write likely = "120.00", the price one is likely to be had for`) {
		return
	}
	likely := t.money("likely")
	a.Likely, a.Low, a.High = likely.V, low.Or(likely.V), high.Or(likely.V)
	if !likely.Set {
		return
	}
	if a.Low > a.Likely {
		t.wrong("low", "the low price is above the likely one", "write the lower of the two as low")
	}
	if a.High < a.Likely {
		t.wrong("high", "the high price is below the likely one", "write the higher of the two as high")
	}
}

// readWanted reads [find.NAME]: what else to look out for.
func (l *loader) readWanted() {
	if l.job == nil {
		return
	}
	for _, t := range l.job.named("find") {
		w := Wanted{ID: t.id, Slots: t.refs("slots", l.slots), Grade: t.grade("grade"), Fresh: t.flag("fresh").V,
			From: t.here()}
		if t.need("kind", `write kind = "original", "old-stock" or "reproduction"`) {
			w.Kind = Kind(t.word("kind", string(Original), string(OldStock), string(Reproduction)))
		}
		l.state.Wanted = append(l.state.Wanted, w)
		t.done()
	}
}
