package jobs

import "brightset/catalog"

// soundness makes three of the random defects faults of shape, fastening and strength; the
// light ones of strength are harmless, and the work that mends them gives strength back in
// some jobs.
func (j *RandomJob) soundness() {
	if !j.has("soundness") {
		return
	}
	t, r := &j.St.Tables, j.Of("soundness")
	pits, dents, post := &t.Defects[2], &t.Defects[3], &t.Defects[4]
	pits.Soundness, dents.Soundness, post.Soundness = catalog.OfStrength, catalog.OfShape, catalog.OfFastening
	pits.By[catalog.Light].Harmless = maybe(Chance(r, 70), true)
	if Chance(r, 40) {
		t.Works[1].Restores = Set(true)
	}
}

// harmless says of some findings that they keep nothing from hanging, or that they do
// where the table says otherwise.
func (j *RandomJob) harmless(p *catalog.Piece, name string) {
	r := j.Of(name + "harmless")
	for i := range p.Findings {
		p.Findings[i].Harmless = maybe(Chance(r, 60), Chance(r, 75))
		if !j.has("harmless") {
			p.Findings[i].Harmless = catalog.Val[bool]{}
		}
	}
}
