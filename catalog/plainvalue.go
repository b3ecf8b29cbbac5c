package catalog

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"time"
)

// dateKeys are the keys whose values are dates, which JSON has no type for.
var dateKeys = map[string]bool{"date": true, "start": true, "on": true}

// localDate is how the TOML decoder marks a date without a time.
var localDate = time.FixedZone("date-local", 0)

// dated turns the texts of dates, here and below, into dates.
func dated(key string, v any) any {
	switch x := v.(type) {
	case string:
		if d, err := time.ParseInLocation(time.DateOnly, x, localDate); err == nil && dateKeys[key] {
			return d
		}
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = dated(k, e)
		}
		return out
	}
	return v
}

// plainValue turns a decoded value into what a journal can hold.
func plainValue(v any) any {
	switch x := v.(type) {
	case time.Time:
		return x.Format(time.DateOnly)
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = plainValue(e)
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = plainValue(e)
		}
		return out
	}
	return v
}

// same compares a decoded value with one of a journal. 62 and 62.0 are the same.
func same(a, b any) bool { return reflect.DeepEqual(numbers(plainValue(a)), numbers(b)) }

func numbers(v any) any {
	switch x := v.(type) {
	case int64:
		return float64(x)
	case int:
		return float64(x)
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = numbers(e)
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = numbers(e)
		}
		return out
	case []string:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = e
		}
		return out
	}
	return v
}

// valueText is a value as a message shows it.
func valueText(v any) string {
	switch x := plainValue(v).(type) {
	case nil:
		return "not there"
	case string:
		return fmt.Sprintf("%q", clip(x))
	case map[string]any:
		var all []string
		for _, k := range slices.Sorted(maps.Keys(x)) {
			all = append(all, keyText(k)+" = "+valueText(x[k]))
		}
		return "{" + strings.Join(all, ", ") + "}"
	default:
		return fmt.Sprint(x)
	}
}
