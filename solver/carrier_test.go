package solver

import (
	"slices"
	"testing"
)

// TestCarrier: a solution is read by names, whatever the order; where a column, a group or a
// voluntary switch that is on is not there, there is none.
func TestCarrier(t *testing.T) {
	group := func(name string, columns ...string) Group {
		g := Group{Name: name}
		for _, c := range columns {
			g.Columns = append(g.Columns, Column{Name: c})
		}
		return g
	}
	from := &Problem{
		Groups:   []Group{group("a", "x", "y"), group("b", "x", "z")},
		Switches: []Switch{{Name: "lot"}, {Name: "trade", Voluntary: true}},
	}
	to := &Problem{
		Groups:   []Group{group("b", "z"), group("a", "w", "y", "x")},
		Switches: []Switch{{Name: "trade", Voluntary: true}, {Name: "lot"}},
	}
	pick, voluntary := NewCarrier(from, to).Carry([]int{1, 1}, []bool{true, true})
	if !slices.Equal(pick, []int{0, 1}) || !slices.Equal(voluntary, []bool{true, false}) {
		t.Errorf("carried to %v, %v", pick, voluntary)
	}
	if pick, _ := NewCarrier(from, to).Carry([]int{1, 0}, []bool{true, true}); pick != nil {
		t.Errorf("column x of group b is not there, but is carried to %v", pick)
	}
	bare := &Problem{Groups: to.Groups, Switches: to.Switches[1:]}
	if pick, _ := NewCarrier(from, bare).Carry([]int{1, 1}, []bool{true, true}); pick != nil {
		t.Errorf("the trade is not there, but is carried to %v", pick)
	}
	if pick, _ := NewCarrier(from, bare).Carry([]int{1, 1}, []bool{true, false}); pick == nil {
		t.Errorf("without the trade nothing is carried")
	}
	more := &Problem{Groups: append([]Group{group("c", "x")}, to.Groups...), Switches: to.Switches}
	if pick, _ := NewCarrier(from, more).Carry([]int{1, 1}, []bool{true, true}); pick != nil {
		t.Errorf("nothing is known of group c, but it is carried to %v", pick)
	}
}
