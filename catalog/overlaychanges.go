package catalog

import (
	"fmt"
	"maps"
	"slices"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// overlay lays the entries of both journals over the tables of the files.
type overlay struct {
	l         *loader
	job, shop *recorded // nil where there is no journal

	standing []journal.Entry // of the job's
	counting []journal.Entry // of the shop's, those of other jobs included

	jobRoots, shopRoots []*table
}

// part is what an entry changes in one of the two files.
type part struct {
	in    *recorded
	e     *journal.Entry
	roots []*table
}

// all lays every entry. The two parts of an action of this job's go together, between
// the entries of other jobs that the shop's journal has before and after them.
func (x *overlay) all() {
	own, at := map[string]bool{}, map[string]int{}
	for i := range x.standing {
		own[x.standing[i].ID] = true
	}
	for i := range x.counting {
		at[x.counting[i].ID] = i
	}
	next := 0
	others := func(until int) {
		for ; next < until; next++ {
			if e := &x.counting[next]; !own[e.ID] {
				x.apply(part{x.shop, e, x.shopRoots})
			}
		}
	}
	for i := range x.standing {
		e := &x.standing[i]
		parts := []part{{x.job, e, x.jobRoots}}
		if j, ok := at[e.ID]; ok {
			others(j)
			parts = append(parts, part{x.shop, &x.counting[j], x.shopRoots})
		}
		x.apply(parts...)
	}
	others(len(x.counting))
}

// apply makes all changes of an action, or none and tells why.
func (x *overlay) apply(parts ...part) {
	for _, p := range parts {
		why := p.hindered()
		if why == "" {
			continue
		}
		e := parts[0].e
		if p.in == x.job || parts[0].in == x.job {
			x.l.unapplied[e.ID] = why
		}
		text := fmt.Sprintf("entry %d (%s) is not applied: %s; write that back, or record it anew", p.e.Seq, p.e.Action, why)
		if sum := SpentBy(e); sum != 0 {
			text += fmt.Sprintf("; %s that it spent does not count", FormatMoney(sum))
		}
		x.l.warn(Origin{Source: Recorded, File: p.in.doc.file, Line: p.e.Line, Column: 1}, text)
		return
	}
	for _, p := range parts {
		in := p.in.doc
		if p.e.Line == 0 {
			in = p.in.yet
		}
		for i := range p.e.Changes {
			c := &p.e.Changes[i]
			change(holder(p.roots, c.Target).doc, in, p.e.Line, c)
		}
	}
}

// hindered says why an entry can't be applied: what it changes is not what it was.
func (p part) hindered() string {
	for i := range p.e.Changes {
		c := &p.e.Changes[i]
		now, what := lookUp(holder(p.roots, c.Target).doc.root, c.Target), dotted(c.Target)
		if c.Target.Is(event.TablePiece) && !p.has(c.Target[:2]) {
			return dotted(c.Target[:2]) + " is not there any more"
		}
		if at := blocked(holder(p.roots, c.Target).doc.root, c.Target); at != "" {
			return at + " is no table any more"
		}
		for _, key := range slices.Sorted(maps.Keys(c.Old)) {
			if was := now[string(key)]; !same(was, c.Old[key]) {
				return fmt.Sprintf("%s of %s is %s now and was %s then", keyText(string(key)), what, valueText(was),
					valueText(c.Old[key]))
			}
		}
	}
	return ""
}

// has says whether a piece is in a file, or is brought in by the entry itself.
func (p part) has(piece []string) bool {
	if lookUp(holder(p.roots, piece).doc.root, piece) != nil {
		return true
	}
	return slices.ContainsFunc(p.e.Changes, func(c journal.Change) bool {
		return slices.Equal(c.Target, piece) && c.New[event.KeyKind] != nil
	})
}

// SpentBy is what an entry spends; below zero where money came in.
func SpentBy(e *journal.Entry) (sum Cents) {
	for _, c := range e.Changes {
		if !c.Target.Is(event.TableSpent) {
			continue
		}
		for key, sign := range map[event.Key]Cents{event.KeyCost: 1, event.KeyCredit: -1} {
			if text, ok := c.New[key].(string); ok {
				if cents, err := ParseMoney(text); err == nil {
					sum += sign * cents
				}
			}
		}
	}
	return sum
}

// holder is the file that a table is written in: the one that has the whole path, else
// the one that has its beginning, else the first.
func holder(roots []*table, path []string) *table {
	for n := len(path); n >= 2; n-- {
		for _, t := range roots {
			if lookUp(t.doc.root, path[:n]) != nil {
				return t
			}
		}
	}
	return roots[0]
}

// lookUp gives the table at a path, nil where there is none.
func lookUp(m map[string]any, path []string) map[string]any {
	for _, p := range path {
		sub, ok := m[p].(map[string]any)
		if !ok {
			return nil
		}
		m = sub
	}
	return m
}

// blocked is the part of a path where something else than a table stands; "" where
// nothing does.
func blocked(m map[string]any, path []string) string {
	for i, p := range path {
		v, there := m[p]
		if !there {
			return ""
		}
		sub, ok := v.(map[string]any)
		if !ok {
			return dotted(path[:i+1])
		}
		m = sub
	}
	return ""
}

// change writes one change into the tables of a file and notes where it stands. A table
// that nothing is left in is gone.
func change(d, in *document, line int, c *journal.Change) {
	spot := span{line: line, column: 1, width: 1, in: in}
	m, path := d.root, ""
	for i, p := range c.Target {
		sub, ok := m[p].(map[string]any)
		path = join(c.Target[:i+1]...)
		if !ok {
			sub = map[string]any{}
			m[p] = sub
			d.places[path] = place{spot, spot}
		}
		m = sub
	}
	for k, v := range c.New {
		key := string(k)
		if v == nil {
			delete(m, key)
			continue
		}
		m[key] = dated(key, v)
		d.places[path+"\x00"+key] = place{spot, spot}
	}
	if len(m) == 0 && len(c.Target) > 1 {
		delete(lookUp(d.root, c.Target[:len(c.Target)-1]), c.Target[len(c.Target)-1])
	}
}
