package record

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// Keep is the act by which a plan is kept: the one that is followed from now on, and
// that later ones are compared with.
func Keep(d *catalog.Recorder, pl *plan.Plan) catalog.Act {
	b := &builder{d: d, st: d.State, deed: catalog.Act{Action: catalog.KeepAction}}
	for _, slot := range d.Keys(false, []string{"plan"}) {
		b.clear(false, []string{"plan", slot})
	}
	for _, line := range plan.KeptLines(d.State, pl) {
		target := []string{"plan", line.Slot}
		for _, key := range []string{"piece", "work", "plater", "level", "fallback"} {
			b.set(false, target, key, nil)
		}
		b.choice(target, &line.KeptChoice)
		b.set(false, target, "expected", catalog.FormatMoney(max(0, line.Expected)))
		if line.Fallback != nil {
			b.set(false, target, "fallback", choiceTable(line.Fallback))
		}
	}
	b.deed.Sets = lastOnly(b.deed.Sets)
	return b.deed
}

func (b *builder) choice(target []string, c *catalog.KeptChoice) {
	for key, v := range choiceTable(c) {
		b.set(false, target, key, v)
	}
}

func choiceTable(c *catalog.KeptChoice) map[string]any {
	m := map[string]any{"piece": c.Piece, "work": c.Work}
	if c.Plater != "" {
		m["plater"] = c.Plater
	}
	if c.Level != "" {
		m["level"] = c.Level
	}
	return m
}

// lastOnly keeps the last value of every key.
func lastOnly(sets []catalog.Set) []catalog.Set {
	at := map[string]int{}
	var out []catalog.Set
	for _, s := range sets {
		key := s.Key
		for _, t := range s.Target {
			key += "\x00" + t
		}
		if i, there := at[key]; there {
			out[i] = s
			continue
		}
		at[key] = len(out)
		out = append(out, s)
	}
	return out
}
