package ask

import (
	"reflect"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// leftOut is what two pieces that are equal may differ in: names, papers, and how many there are.
// Every other field of a piece has a part in some decision.
var leftOut = []string{"ID", "InShop", "InBoth", "Name", "Tag", "Place", "Marks", "Note", "Photos", "Hardware",
	"Protect", "Quantity", "Unpriced", "From"}

// TestEqualPiecesInAllFields: pieces that differ in one field alone are equal only if that is one
// of those left out on purpose, so that a field that is added is not forgotten.
func TestEqualPiecesInAllFields(t *testing.T) {
	fields := reflect.TypeFor[catalog.Piece]()
	for i := range fields.NumField() {
		st := jobs.Tiny()
		st.Pieces = []catalog.Piece{jobs.TinyPiece("one"), jobs.TinyPiece("other")}
		unlike(t, fields.Field(i).Name, reflect.ValueOf(&st.Pieces[0]).Elem().Field(i))
		w := swapsOf(st)
		if name := fields.Field(i).Name; (w.class[0] == w.class[1]) != slices.Contains(leftOut, name) {
			t.Errorf("%s differs: equal %v", name, w.class[0] == w.class[1])
		}
	}
}

// unlike makes a value another than it is; of a struct it is the first field that decides anything.
func unlike(t *testing.T, name string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Int, reflect.Int64:
		v.SetInt(v.Int() + 1)
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Slice:
		v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
	case reflect.Struct:
		unlike(t, name, v.Field(0))
	default:
		t.Fatalf("%s is a %s", name, v.Kind())
	}
}

// TestOtherPieceOtherPlan: a spare as good as the object's own piece makes another plan, for one
// of them is kept and the other is not; and so does one that bears less.
func TestOtherPieceOtherPlan(t *testing.T) {
	for name, set := range map[string]func(p *catalog.Piece){
		"off":  func(p *catalog.Piece) { p.Off = true },
		"weak": func(p *catalog.Piece) { p.Weak = true },
	} {
		st := jobs.Tiny()
		st.Slots, st.Pieces = st.Slots[:1], []catalog.Piece{jobs.TinyPiece("own"), jobs.TinyPiece("spare")}
		for i := range st.Pieces {
			st.Pieces[i].Grade, st.Pieces[i].Metal = jobs.Given(catalog.Centi(90_00)), catalog.None // as it is alone
		}
		set(&st.Pieces[0])
		_, all := othersOf(t, st, 1, 1)
		if o := all[0]; o.Plan == nil || !o.Plan.Has || o.Differ != 1 {
			t.Errorf("%s: the other piece makes no other plan: %+v", name, o)
		}
	}
}
