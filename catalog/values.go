package catalog

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// val is a value given under a key.
func val[T any](t *table, key string, v T) Val[T] {
	return Val[T]{V: v, Set: true, From: t.from(key)}
}

// flag reads true or false.
func (t *table) flag(key string) (out Val[bool]) {
	v, ok := t.raw(key)
	if !ok {
		return out
	}
	b, ok := v.(bool)
	if !ok {
		t.wrong(key, "this has to be true or false", fmt.Sprintf("write %[1]s = true or %[1]s = false, without quotes",
			t.label(key)))
		return out
	}
	return val(t, key, b)
}

// money reads an amount in quotes.
func (t *table) money(key string) (out Val[Cents]) {
	v, ok := t.raw(key)
	if !ok {
		return out
	}
	s, ok := v.(string)
	if !ok {
		example := "240.00"
		if f, isNumber := asFloat(v); isNumber && f >= 0 && f <= float64(MaxMoney)/100 {
			example = FormatMoney(Cents(math.Round(f * 100)))
		}
		t.wrong(key, "money is written in quotes", fmt.Sprintf("write %s = %q", t.label(key), example))
		return out
	}
	c, err := ParseMoney(s)
	if err != nil {
		t.bad(key, err)
		return out
	}
	return val(t, key, c)
}

// area reads an area with its unit, and gives it as it is written too: people think in the
// unit they measure in.
func (t *table) area(key string) (out Val[Micro], written string) {
	v, ok := t.raw(key)
	if !ok {
		return out, ""
	}
	s, ok := v.(string)
	if !ok {
		example := "3.2"
		if f, isNumber := asFloat(v); isNumber && f > 0 && f < 1e6 {
			example = plainNumber(f)
		}
		t.wrong(key, "an area is written in quotes, with its unit", fmt.Sprintf("write %s = %q or %q", key, example+" dm2",
			example+" in2"))
		return out, ""
	}
	a, err := ParseArea(s)
	if err != nil {
		t.bad(key, err)
		return out, ""
	}
	return val(t, key, a), strings.TrimSpace(s)
}

// grade reads a number 0..100 or a word of the grade table.
func (t *table) grade(key string) Val[Centi] {
	return t.centiOrWord(key, func(s string) (Centi, error) { return ParseGrade(s, &t.l.state.Tables) }, 0, MaxGrade)
}

// tone reads a number or a word of the tone table.
func (t *table) tone(key string) Val[Centi] {
	return t.centiOrWord(key, func(s string) (Centi, error) { return ParseTone(s, &t.l.state.Tables) }, -MaxTone, MaxTone)
}

func (t *table) centiOrWord(key string, parse func(string) (Centi, error), least, most Centi) (out Val[Centi]) {
	v, ok := t.raw(key)
	if !ok {
		return out
	}
	s, ok := v.(string)
	if !ok {
		if _, isNumber := asFloat(v); isNumber {
			return number(t, key, least, most, 100)
		}
		t.wrong(key, "this has to be a number or a word in quotes",
			fmt.Sprintf("write %s = %s", t.label(key), plainNumber(float64(most+least)/200)))
		return out
	}
	c, err := parse(s)
	if err != nil {
		if !t.l.partial {
			t.bad(key, err)
		}
		return out
	}
	return val(t, key, c)
}

// DayInReason says whether a day may be one of a job: from 1900 to 2199. What is further off is
// a slip of the hand, and sums of days with it run out of the calendar.
func DayInReason(d time.Time) bool { return d.Year() >= 1900 && d.Year() < 2200 }

// date reads a date without a time.
func (t *table) date(key string) (out Val[time.Time]) {
	v, ok := t.raw(key)
	if !ok {
		return out
	}
	d, ok := v.(time.Time)
	if !ok || d.Location().String() != "date-local" {
		example := "2027-01-10"
		if ok {
			example = d.Format(time.DateOnly)
		} else if s, isText := v.(string); isText {
			if p, err := time.Parse(time.DateOnly, s); err == nil {
				example = p.Format(time.DateOnly)
			}
		}
		t.wrong(key, "this has to be a date", fmt.Sprintf("write %s = %s, without quotes and time", t.label(key), example))
		return out
	}
	if !DayInReason(d) {
		t.wrong(key, fmt.Sprintf("no job has a day in the year %d", d.Year()), "check the year")
		return out
	}
	return val(t, key, time.Date(d.Year(), d.Month(), d.Day(), 0, 0, 0, 0, time.UTC))
}

// bad reports what a parser of single values said.
func (t *table) bad(key string, err error) {
	if b, ok := err.(*BadValue); ok {
		t.wrong(key, b.Message, b.Hint)
		return
	}
	t.wrong(key, err.Error(), "")
}

// shown is a value as an example of what could stand in quotes.
func shown(v any) string {
	switch x := v.(type) {
	case string:
		return clip(x)
	case int64, bool:
		return fmt.Sprint(x)
	case float64:
		return plainNumber(x)
	}
	return "..."
}
