package catalog

import "slices"

// Points off for a new defect of the user's that gives none, by severity.
var newPoints = [3]Centi{10_00, 25_00, 50_00}

func (l *loader) overlayDefect(t *table, i int) {
	d := at(&l.state.Tables.Defects, i)
	refused := at(&l.refused, i)
	if d.Name == "" {
		d.Name, d.From = t.id, t.here()
		d.Measure, d.Usual, d.Where, d.Soundness, d.Group = ByExtent, One, Face, OfFinish, OnSurface
	}
	if s := t.text("describe"); s != "" {
		d.Describe = s
	}
	if w := t.word("measure", string(ByExtent), string(ByCount)); w != "" {
		d.Measure = Measure(w)
	}
	d.Usual = t.share("usual").Or(d.Usual)
	if w := t.word("where", string(Face), string(Edge), string(Back)); w != "" {
		d.Where = Where(w)
	}
	d.Progressive = t.flag("progressive").Or(d.Progressive)
	if w := t.word("soundness", string(OfFinish), string(OfShape), string(OfFastening), string(OfStrength)); w != "" {
		d.Soundness = Soundness(w)
		d.Group = map[Soundness]FaultGroup{OfFinish: OnSurface, OfShape: InShape, OfFastening: NotAllHere,
			OfStrength: NotAllHere}[d.Soundness]
	}
	if w := t.word("group", string(OnSurface), string(InShape), string(NotAllHere)); w != "" {
		d.Group = FaultGroup(w)
	}
	over(&d.Tone, t.tone("tone"))
	readByMetal(t, "refused", refused, (*table).share)
	for s := Light; s <= Severe; s++ {
		if sub := t.sub(s.String(), t.what+", "+s.String()); sub != nil {
			l.overlayDefectAt(sub, &d.By[s])
		}
	}
}

func (l *loader) overlayDefectAt(t *table, d *DefectAt) {
	over(&d.Points, number(t, "points", 0, MaxPoints, 100))
	over(&d.Cap, t.grade("cap"))
	over(&d.Polishes, t.flag("polishes"))
	over(&d.Beyond, t.flag("beyond"))
	over(&d.Harmless, t.flag("harmless"))
	over(&d.Reveal, t.share("reveal"))
	if works := t.refs("works", l.works); works != nil {
		d.Works = works
	}
	l.overlayWorksIn(t, d)
	t.done()
}

// overlayWorksIn reads which works mend a defect in some metals in place of those in any other.
func (l *loader) overlayWorksIn(t *table, d *DefectAt) {
	sub := t.sub("works_in", "works_in of "+t.what)
	if sub == nil {
		return
	}
	for _, name := range sub.keys() {
		works := sub.refs(name, l.works)
		metal, known := l.metals.find(name)
		if !known {
			if !l.excused(l.metals, name) {
				message, hint := l.unknown(l.metals, name)
				sub.wrongKey(name, message, hint)
			}
			continue
		}
		d.WorksIn = append(slices.DeleteFunc(d.WorksIn, func(w WorksIn) bool { return w.Metal == metal }),
			WorksIn{Metal: metal, Works: works})
	}
}

func (l *loader) overlayWork(t *table, i int) {
	w := at(&l.state.Tables.Works, i)
	breakage := at(&l.breakage, i)
	if w.Name == "" {
		w.Name, w.From = t.id, t.here()
	}
	if s := t.text("describe"); s != "" {
		w.Describe = s
	}
	if s := t.text("told"); s != "" {
		w.HasHad = s
	}
	w.Usual = t.flag("usual").Or(w.Usual)
	over(&w.Order, t.whole("order", 0, MaxOrder))
	over(&w.Hours, t.hours("hours"))
	over(&w.Each, t.hours("each"))
	over(&w.PerArea, t.hours("per_dm2"))
	over(&w.Cap, t.grade("cap"))
	over(&w.Restores, t.flag("restores_strength"))
	readByMetal(t, "breakage", breakage, (*table).share)
}

// finishTables spreads the values by metal over all metals and gives new
// defects their points.
func (l *loader) finishTables() {
	tables := &l.state.Tables
	for i := range tables.Defects {
		d := &tables.Defects[i]
		d.Refused = l.refused[i].list(len(tables.Metals))
		none := !d.By[Light].Points.Set && !d.By[Moderate].Points.Set && !d.By[Severe].Points.Set
		for s := range d.By {
			if none {
				d.By[s].Points = Val[Centi]{V: newPoints[s], Set: true}
			}
		}
	}
	for i := range tables.Works {
		tables.Works[i].Breakage = l.breakage[i].list(len(tables.Metals))
	}
}
