package catalog

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// whole reads a whole number between two bounds.
func (t *table) whole(key string, least, most int) (out Val[int]) {
	v, ok := t.raw(key)
	if !ok {
		return out
	}
	n, ok := v.(int64)
	if !ok {
		hint := fmt.Sprintf("write a whole number from %d to %d, without quotes", least, most)
		if f, isNumber := likelyNumber(v); isNumber && f > 0 && f < float64(most) {
			hint = fmt.Sprintf("write %s = %d, without quotes", t.label(key), int(math.Ceil(f)))
		}
		if _, number := v.(float64); number {
			hint = strings.TrimSuffix(hint, ", without quotes")
		}
		t.wrong(key, "this has to be a whole number", hint)
		return out
	}
	if n < int64(least) || n > int64(most) {
		t.wrong(key, fmt.Sprintf("%d is not between %d and %d", n, least, most),
			fmt.Sprintf("write a whole number from %d to %d", least, most))
		return out
	}
	return val(t, key, int(n))
}

// number reads a number between two bounds, in whole units of 1/scale.
func number[T ~int64](t *table, key string, least, most T, scale float64) (out Val[T]) {
	v, ok := t.raw(key)
	if !ok {
		return out
	}
	f, ok := asFloat(v)
	if !ok {
		low, high := float64(least)/scale, float64(most)/scale
		hint := fmt.Sprintf("write a number from %s to %s, without quotes", plainNumber(low), plainNumber(high))
		if f, isNumber := likelyNumber(v); isNumber && low <= f && f <= high {
			hint = fmt.Sprintf("write %s = %s, without quotes", t.label(key), plainNumber(f))
		}
		t.wrong(key, "this has to be a number", hint)
		return out
	}
	n, problem := scaled(f, least, most, scale)
	if problem != nil {
		t.wrong(key, problem.Message, problem.Hint)
		return out
	}
	return val(t, key, n)
}

// scaled turns a number into whole units of 1/scale, checking its bounds.
func scaled[T ~int64](f float64, least, most T, scale float64) (T, *BadValue) {
	low, high := plainNumber(float64(least)/scale), plainNumber(float64(most)/scale)
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return 0, bad(fmt.Sprintf("write a number from %s to %s", low, high), "%v is no number to calculate with", f)
	}
	if f*scale < float64(least) || f*scale > float64(most) {
		hint := fmt.Sprintf("write a number from %s to %s", low, high)
		if least == 0 && float64(most) == scale && f > 1 && f <= 100 {
			hint += fmt.Sprintf("; %s %% is %s", plainNumber(f), plainNumber(f/100))
		}
		return 0, bad(hint, "%s is not between %s and %s", plainNumber(f), low, high)
	}
	return T(math.Round(f * scale)), nil
}

// asFloat gives the number a decoded value is.
func asFloat(v any) (float64, bool) {
	switch n := v.(type) {
	case int64:
		return float64(n), true
	case float64:
		return n, true
	}
	return 0, false
}

// likelyNumber gives the number that a decoded value is, or that its text was
// meant to be: "5 %" is 0.05.
func likelyNumber(v any) (float64, bool) {
	s, isText := v.(string)
	if !isText {
		return asFloat(v)
	}
	text, percent := strings.CutSuffix(strings.TrimSpace(s), "%")
	end := strings.IndexFunc(text, func(r rune) bool { return r != '.' && r != '-' && (r < '0' || r > '9') })
	if end > 0 && !percent {
		text = text[:end] // "90 days"
	}
	f, ok := plainFloat(strings.TrimSpace(text))
	if percent {
		f /= 100
	}
	return f, ok
}

func plainNumber(f float64) string { return strconv.FormatFloat(f, 'g', 12, 64) }

// share reads a probability or a share of a surface, 0..1.
func (t *table) share(key string) Val[Micro] { return number(t, key, 0, One, 1e6) }

// hours reads a number of hours.
func (t *table) hours(key string) Val[Micro] { return number(t, key, 0, MaxHours, 1e6) }
