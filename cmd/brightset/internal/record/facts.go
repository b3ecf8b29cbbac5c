package record

import (
	"fmt"
	"reflect"
	"strings"
	"time"
	"unicode/utf8"

	"brightset/catalog"
)

// longest is how many characters a fact may have.
const longest = 2000

// tidy puts what was typed on one line each, and refuses what can't be kept.
func (f *Facts) tidy() error {
	v := reflect.ValueOf(f).Elem()
	for i := range v.NumField() {
		if v.Field(i).Kind() != reflect.String {
			continue
		}
		one := strings.TrimSpace(strings.NewReplacer("\r\n", " ", "\n", " ", "\t", " ").Replace(v.Field(i).String()))
		name := strings.ToLower(v.Type().Field(i).Name)
		switch {
		case !utf8.ValidString(one):
			return fmt.Errorf("%s %q has characters in it that can't be shown; leave them out", name, one)
		case catalog.FirstUnseen(one) != "":
			return fmt.Errorf("%s %q contains %s; delete it and type the text again", name, one, catalog.FirstUnseen(one))
		case utf8.RuneCountInString(one) > longest:
			return fmt.Errorf("%s is longer than %d characters; keep long notes in a file of their own", name, longest)
		}
		if err := plainNumber(name, one); err != nil {
			return err
		}
		v.Field(i).SetString(one)
	}
	for i := range f.Each {
		if err := f.Each[i].tidy(); err != nil {
			return err
		}
	}
	if _, err := time.Parse(time.DateOnly, f.On); f.On != "" && err != nil {
		return fmt.Errorf("%q is no day; write it as 2027-01-31", f.On)
	}
	return nil
}

// numbers are the facts that may be numbers.
var numbers = map[string]bool{"quantity": true, "chance": true, "extent": true, "count": true, "grade": true,
	"tone": true, "days": true, "floor": true, "mean": true,
	"breakage": true}

// plainNumber refuses what begins like a number and is none: 0,5 and 85% and 1e3.
func plainNumber(name, text string) error {
	if !numbers[name] || text == "" || !strings.ContainsRune("0123456789+-.", rune(text[0])) {
		return nil
	}
	if _, isText := value(text).(string); !isText {
		return nil
	}
	instead := "write digits, with a point where there is a fraction, such as 85 or 0.5"
	if point := strings.Replace(text, ",", ".", 1); point != text {
		if _, isText := value(point).(string); !isText {
			instead = "write " + point
		}
	}
	return fmt.Errorf("--%s %q is no plain number; %s", name, text, instead)
}
