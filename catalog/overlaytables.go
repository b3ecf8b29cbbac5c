package catalog

import (
	"fmt"
	"strings"
)

// byMetal is a value per metal while the layers are laid: those named, and the
// one for all others.
type byMetal[T any] struct {
	named map[int]Val[T]
	other Val[T]
}

// readByMetal lays the values of one key over those from the layers below. The
// key holds a table by metal, with "other" for all not named in any layer, or
// one value for all metals.
func readByMetal[T any](t *table, key string, into *byMetal[T], one func(t *table, key string) Val[T]) {
	v, ok := t.raw(key)
	if !ok {
		return
	}
	if _, isTable := v.(map[string]any); !isTable {
		if all := one(t, key); all.Set {
			*into = byMetal[T]{other: all}
		}
		return
	}
	sub := t.sub(key, key)
	for _, name := range sub.keys() {
		metal, known := t.l.metals.find(name)
		switch {
		case strings.EqualFold(name, "other"):
			if v := one(sub, name); v.Set {
				into.other = v
			}
		case known:
			if v := one(sub, name); v.Set {
				if into.named == nil {
					into.named = map[int]Val[T]{}
				}
				into.named[metal] = v
			}
		case !t.l.excused(t.l.metals, name):
			message, hint := t.l.unknown(t.l.metals, name)
			sub.wrongKey(name, message, hint)
		}
	}
}

// list gives the values of all metals.
func (b *byMetal[T]) list(metals int) []Val[T] {
	out := make([]Val[T], metals)
	for i := range out {
		out[i] = b.other
		if v, ok := b.named[i]; ok {
			out[i] = v
		}
	}
	return out
}

// defaults are starting values that are not part of a trade table.
type defaults struct {
	Hourly     Val[Cents]
	Rescue     Val[Cents]
	RescueDays Val[int]
	Strength   Val[int]
	Spread     Spread
}

// overlayTables lays the trade tables of all layers over each other, key by key.
// Names come first, since tables refer to each other; grades before whatever
// may be written as a grade.
func (l *loader) overlayTables() {
	roots := make([]*table, len(l.layers))
	for i, d := range l.layers {
		roots[i] = l.rootOf(d)
	}
	kinds := []struct {
		names *names
		lay   func(t *table, i int)
	}{
		{l.grades, l.overlayGrade}, {l.tones, l.overlayTone}, {l.metals, l.overlayMetal},
		{l.works, l.overlayWork}, {l.defects, l.overlayDefect}, {l.targets, l.overlayTarget},
	}
	tables := map[string][]*table{}
	for _, k := range kinds {
		for _, root := range roots {
			for _, t := range l.tablesOf(root, k.names.kind) {
				l.register(t, k.names)
				tables[k.names.kind] = append(tables[k.names.kind], t)
			}
		}
	}
	l.orderWorks(tables[l.works.kind])
	for _, k := range kinds {
		for _, t := range tables[k.names.kind] {
			i, _ := k.names.find(t.id)
			k.lay(t, i)
			t.done()
		}
		if k.names == l.grades {
			l.finishWords()
		}
	}
	l.overlayDefaults(roots)
	l.finishTables()
}

// rootOf gives the one reader of a document's top level.
func (l *loader) rootOf(d *document) *table {
	for _, t := range append([]*table{l.job, l.shop}, l.others...) {
		if t != nil && t.doc == d {
			return t
		}
	}
	return l.rootTable(d)
}

// tablesOf gives the tables [kind.NAME] of a layer. A word may also be written
// in one line, [grade] nice = 75; keys of the job's own [target] are left to it.
func (l *loader) tablesOf(root *table, kind string) []*table {
	group, isTable := root.m[kind].(map[string]any)
	if name, isText := root.m[kind].(string); isText && kind == "target" {
		root.raw(kind)
		root.wrong(kind, "at the top level this has to be a table", fmt.Sprintf("write target = %q below [job]", name))
		return nil
	}
	if !isTable || kind != "grade" && kind != "tone" && kind != "target" {
		return root.named(kind)
	}
	sub := root.sub(kind, kind)
	var out []*table
	for i, name := range sub.keys() {
		if sub.tooMany(kind, name, i) {
			break
		}
		_, inTable := group[name].(map[string]any)
		switch {
		case kind == "target" && !inTable:
			if root != l.job {
				sub.wrongKey(name, fmt.Sprintf("[target] in this file holds named targets only, not %q", name),
					"write [target.NAME] above it")
			}
		case !sub.goodID(kind, name):
		case inTable:
			out = append(out, sub.sub(name, fmt.Sprintf("%s %q", kind, name)))
		default:
			one := *sub
			one.m = map[string]any{"value": group[name]}
			one.id, one.what = name, fmt.Sprintf("%s %q", kind, name)
			one.asked, one.alias = nil, name
			out = append(out, &one)
		}
	}
	return out
}

// register notes a name of the trade tables. A new one that looks much like an
// older one is probably a slip.
func (l *loader) register(t *table, n *names) {
	if n == l.metals && (strings.EqualFold(t.id, "other") || strings.EqualFold(t.id, "unknown")) {
		t.wrongHere(fmt.Sprintf("%q can't be the name of a metal", t.id), "it has a meaning of its own in these files; "+
			"write another name")
	}
	if _, fresh := n.add(t.id, t.here()); !fresh {
		return
	} else if t.source == StartingValue {
		n.builtIn = len(n.order)
		return
	}
	if like := Closest(t.id, n.order[:n.builtIn]); like != "" && distance(t.id, like) <= 2 {
		l.warn(t.here(), fmt.Sprintf("%s is new; did you mean %q?", t.what, like))
	}
}

func (l *loader) overlayDefaults(roots []*table) {
	for _, root := range roots {
		if root.source != StartingValue {
			continue
		}
		t := root.sub("defaults", "the defaults")
		if t == nil {
			continue
		}
		l.defaults = defaults{t.money("hourly"), t.money("rescue"), t.whole("rescue_days", 0, MaxDays),
			t.whole("strength", 1, 1_000), t.spread()}
		l.state.Tables.Strength, l.state.Tables.Spread = l.defaults.Strength.V, l.defaults.Spread
		t.done()
	}
}

// spread reads how far a guess may be off, as shares of it.
func (t *table) spread() Spread {
	return Spread{Low: t.share("spread_low"), High: number(t, "spread_high", 0, MaxSpread, 1e6)}
}

// over lays a value over an older one, where there is one.
func over[T any](old *Val[T], v Val[T]) {
	if v.Set {
		*old = v
	}
}
