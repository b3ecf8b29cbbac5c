package catalog

import "reflect"

// Clone gives a copy that shares nothing that can be changed: whatever is done
// to one leaves the other alone.
func (s *State) Clone() *State {
	out := *s
	separate(reflect.ValueOf(&out).Elem())
	return &out
}

// separate gives every slice within a value memory of its own. The state holds
// no maps and pointers but those within time.Time, which never change.
func separate(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				separate(v.Field(i))
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			separate(v.Index(i))
		}
	case reflect.Slice:
		if v.IsNil() {
			return
		}
		own := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(own, v)
		v.Set(own)
		for i := range own.Len() {
			separate(own.Index(i))
		}
	}
}
