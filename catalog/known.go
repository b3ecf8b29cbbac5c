package catalog

import (
	"maps"
	"sync"
)

// Known keeps files as they were taken apart last, so that what has not changed is not taken apart again: a program
// that looks at the same job over and over reads it each time, and spends most of that on the same text. Nil keeps
// nothing. It may be used by several at once.
type Known struct {
	mu    sync.Mutex
	all   map[string]readText // by their text
	order []string            // the one used last at the end
	bytes int

	opening sync.Mutex
	last    *Recorder // the job that was opened last, where nothing was wrong with it
}

// readText is a text taken apart.
type readText struct {
	scan *scanner
	root map[string]any
}

// mostKnown is how much text is kept.
const mostKnown = 4 << 20

// find gives a text as it was taken apart before, to be changed at will.
func (k *Known) find(src string) (*scanner, map[string]place, map[string]any, bool) {
	if k == nil {
		return nil, nil, nil, false
	}
	k.mu.Lock()
	one, ok := k.all[src]
	k.mu.Unlock()
	if !ok {
		return nil, nil, nil, false
	}
	return one.scan, maps.Clone(one.scan.places), copied(one.root).(map[string]any), true
}

// keep keeps a text, and forgets those kept longest where there are too many.
func (k *Known) keep(src string, s *scanner, root map[string]any) {
	if k == nil || len(src) > mostKnown/4 {
		return
	}
	own := *s
	own.places = maps.Clone(s.places)
	one := readText{&own, copied(root).(map[string]any)}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.all == nil {
		k.all = map[string]readText{}
	}
	if _, twice := k.all[src]; twice {
		return
	}
	k.all[src], k.order, k.bytes = one, append(k.order, src), k.bytes+len(src)
	for k.bytes > mostKnown {
		k.bytes -= len(k.order[0])
		delete(k.all, k.order[0])
		k.order = k.order[1:]
	}
}

// copied is a decoded value that shares nothing with the one it is of.
func copied(v any) any {
	switch x := v.(type) {
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = copied(e)
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = copied(e)
		}
		return out
	case []map[string]any:
		out := make([]map[string]any, len(x))
		for i, e := range x {
			out[i] = copied(e).(map[string]any)
		}
		return out
	}
	return v
}
