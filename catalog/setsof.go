package catalog

import (
	"github.com/BurntSushi/toml"

	"brightset/catalog/event"
)

// SetsOf are the keys that a text written as the job's file is would add to it, in its order: what can be
// recorded instead of being included. The error is that of a text that is no TOML.
func SetsOf(text string) ([]Set, error) {
	root := map[string]any{}
	meta, err := toml.Decode(text, &root)
	if err != nil {
		return nil, err
	}
	var all []Set
	for _, path := range meta.Keys() {
		last := len(path) - 1
		v, there := lookUp(root, path[:last])[path[last]]
		if _, isTable := v.(map[string]any); there && !isTable {
			all = append(all, Set{Target: event.Target(path[:last:last]), Key: event.Key(path[last]), Value: plainValue(v)})
		}
	}
	return all, nil
}
