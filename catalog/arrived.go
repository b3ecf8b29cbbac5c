package catalog

// arrive settles what is known of a piece that has been worked on, sent or hung: it has
// come, and nobody waits for it, whatever was written when it was still a lead.
func (p *Piece) arrive() {
	if p.Gone() || (p.Stage == StageSeen && !p.AtPlater()) {
		return
	}
	p.Chance = One
	p.Days = Val[int]{Set: true, From: p.From}
}
