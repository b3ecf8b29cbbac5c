package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"
)

// The keys of an entry and of a change, as they are written.
var (
	entryKeys  = keysOf(reflect.TypeFor[Entry]())
	changeKeys = keysOf(reflect.TypeFor[Change]())
)

// keysOf gives the keys under which the fields of a type are written: those it may have
// and those it always has.
func keysOf(t reflect.Type) (k keys) {
	for i := range t.NumField() {
		name, opts, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == "-" {
			continue
		}
		k.known = append(k.known, name)
		if !strings.Contains(opts, "omitempty") {
			k.always = append(k.always, name)
		}
	}
	return k
}

type keys struct{ known, always []string }

// strictly makes sure that a line says nothing but what is taken from it. The decoder
// takes keys in any case and the last of two alike, passes over those it doesn't know,
// and replaces bytes that are no text: such a line was not written here, and another
// program may read something else in it.
func strictly(line []byte) error {
	if !utf8.Valid(line) {
		return errors.New("this line is not UTF-8")
	}
	d := json.NewDecoder(bytes.NewReader(line))
	d.UseNumber()
	if err := object(d, &entryKeys, ""); err != nil {
		return err
	}
	if _, err := d.Token(); err != io.EOF {
		return errors.New("there is more than one entry on this line")
	}
	return nil
}

var errNoEntry = errors.New("this is no entry of a journal")

// object reads an object, with certain keys or, without k, any.
func object(d *json.Decoder, k *keys, of string) error {
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return errNoEntry
	}
	return members(d, k, of)
}

// members reads the rest of an object: each key stands once.
func members(d *json.Decoder, k *keys, of string) error {
	var seen []string
	for d.More() {
		t, err := d.Token()
		key, ok := t.(string)
		switch {
		case err != nil || !ok:
			return errNoEntry
		case slices.Contains(seen, key):
			return fmt.Errorf("the key %q stands twice%s", key, of)
		case k != nil && !slices.Contains(k.known, key):
			return fmt.Errorf("an entry has no key %q%s", key, of)
		}
		seen = append(seen, key)
		if k == &entryKeys && key == "changes" {
			err = changes(d)
		} else {
			err = value(d)
		}
		if err != nil {
			return err
		}
	}
	if k != nil {
		for _, key := range k.always {
			if !slices.Contains(seen, key) {
				return fmt.Errorf("this entry has no %q%s", key, of)
			}
		}
	}
	return closing(d)
}

// changes reads the list of changes.
func changes(d *json.Decoder) error {
	if t, err := d.Token(); err != nil || t != json.Delim('[') {
		return errors.New("the changes of an entry have to be a list")
	}
	for d.More() {
		if err := object(d, &changeKeys, " in a change"); err != nil {
			return err
		}
	}
	return closing(d)
}

// value reads any value.
func value(d *json.Decoder) error {
	t, err := d.Token()
	switch {
	case err != nil:
		return errNoEntry
	case t == json.Delim('{'):
		return members(d, nil, "")
	case t == json.Delim('['):
		for d.More() {
			if err := value(d); err != nil {
				return err
			}
		}
		return closing(d)
	}
	return nil
}

// closing reads the bracket that ends a list or an object.
func closing(d *json.Decoder) error {
	if _, err := d.Token(); err != nil {
		return errNoEntry
	}
	return nil
}
