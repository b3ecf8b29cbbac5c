package catalog

import (
	"reflect"
	"testing"
)

func TestCloneSharesNothing(t *testing.T) {
	load := func() *State {
		inFolder(t, map[string]string{"job.toml": goodJob, "shop.toml": goodShop, "learned.toml": "", "own.toml": ""})
		s, err := Load("job.toml", Options{})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	original, untouched := load(), load()
	clone := original.Clone()
	if !reflect.DeepEqual(clone, original) {
		t.Fatal("the clone differs")
	}
	if n := spoil(reflect.ValueOf(clone).Elem()); n < 5000 {
		t.Fatalf("only %d values changed", n)
	}
	if !reflect.DeepEqual(original, untouched) {
		t.Error("changing the clone changed the original")
	}
}

// spoil changes every number, text and flag it can reach.
func spoil(v reflect.Value) (n int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				n += spoil(v.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			n += spoil(v.Index(i))
		}
	case reflect.Int, reflect.Int64:
		v.SetInt(v.Int() + 1)
		n++
	case reflect.String:
		v.SetString(v.String() + "!")
		n++
	case reflect.Bool:
		v.SetBool(!v.Bool())
		n++
	}
	return n
}
