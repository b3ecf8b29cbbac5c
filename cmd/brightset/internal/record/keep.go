package record

import (
	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/plan"
)

// Keep is the act by which a plan is kept: the one that is followed from now on, and
// that later ones are compared with. shares are what the job pays of what the plan has in
// common with those of other jobs.
func Keep(d *catalog.Recorder, pl *plan.Plan, shares []catalog.KeptShare) catalog.Act {
	b := &builder{d: d, st: d.State, deed: catalog.Act{Action: event.Keep}}
	for _, slot := range d.Keys(false, event.Of(event.TablePlan)) {
		b.clear(false, event.Of(event.TablePlan, slot))
	}
	for _, line := range plan.KeptLines(pl) {
		target := event.Of(event.TablePlan, line.Slot)
		for _, key := range []event.Key{event.KeyPiece, event.KeyWork, event.KeyPlater, event.KeyLevel, event.KeyFallback} {
			b.set(false, target, key, nil)
		}
		b.choice(target, &line.KeptChoice)
		b.set(false, target, event.KeyExpected, catalog.FormatMoney(max(0, line.Expected)))
		if line.Fallback != nil {
			b.set(false, target, event.KeyFallback, nested(choiceTable(line.Fallback)))
		}
	}
	for _, id := range d.Keys(false, event.Of(event.TableShare)) {
		b.clear(false, event.Of(event.TableShare, id))
	}
	for _, s := range shares {
		target := event.Of(event.TableShare, s.ID)
		b.set(false, target, event.KeyKind, string(s.Kind))
		b.set(false, target, event.KeyOf, s.Of)
		b.set(false, target, event.KeyCost, catalog.FormatMoney(s.Cents))
	}
	b.deed.Sets = lastOnly(b.deed.Sets)
	return b.deed
}

func (b *builder) choice(target event.Target, c *catalog.KeptChoice) {
	for key, v := range choiceTable(c) {
		b.set(false, target, key, v)
	}
}

func choiceTable(c *catalog.KeptChoice) map[event.Key]any {
	m := map[event.Key]any{event.KeyPiece: c.Piece, event.KeyWork: c.Work}
	if c.Plater != "" {
		m[event.KeyPlater] = c.Plater
	}
	if c.Level != "" {
		m[event.KeyLevel] = c.Level
	}
	return m
}

// nested is a table as the value of a key, the way a decoder gives it.
func nested(table map[event.Key]any) map[string]any {
	m := map[string]any{}
	for key, v := range table {
		m[string(key)] = v
	}
	return m
}

// lastOnly keeps the last value of every key.
func lastOnly(sets []catalog.Set) []catalog.Set {
	at := map[string]int{}
	var out []catalog.Set
	for _, s := range sets {
		key := string(s.Key)
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
