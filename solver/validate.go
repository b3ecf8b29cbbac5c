package solver

import "fmt"

// Limit is the largest absolute value of any number of a Problem and of any sum
// that can arise from it. A row limit of Limit or beyond binds nothing.
const Limit = int64(1) << 53

// validShape looks at everything but sums.
func (p *Problem) validShape() error {
	for h := range p.Switches {
		if err := p.validSwitch(h); err != nil {
			return err
		}
	}
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			if err := p.validColumn(&p.Groups[g].Columns[c]); err != nil {
				return fmt.Errorf("group %d, column %d: %w", g, c, err)
			}
		}
	}
	if err := p.validRows(); err != nil {
		return err
	}
	for i := range p.WithinTolerance {
		n := &p.WithinTolerance[i]
		if n.Tolerance < 0 || n.Tolerance > Limit {
			return fmt.Errorf("near %q: tolerance %d out of range", n.Name, n.Tolerance)
		}
		if err := p.validGroups(n.Groups, len(n.Values), func(i int) int { return len(n.Values[i]) }); err != nil {
			return fmt.Errorf("near %q: %w", n.Name, err)
		}
		for _, values := range n.Values {
			for _, v := range values {
				if tooLarge(v) {
					return fmt.Errorf("near %q: value %d out of range", n.Name, v)
				}
			}
		}
	}
	for i := range p.AllEqual {
		s := &p.AllEqual[i]
		if err := p.validGroups(s.Groups, len(s.Labels), func(i int) int { return len(s.Labels[i]) }); err != nil {
			return fmt.Errorf("same %q: %w", s.Name, err)
		}
	}
	return p.validParts()
}

func (p *Problem) validRows() error {
	for r := range p.Rows {
		row := &p.Rows[r]
		if row.Charges && row.Sense != AtMost {
			return fmt.Errorf("row %q: charges can only be limited from above", row.Name)
		}
		if p.noAccount(row.Account) {
			return fmt.Errorf("row %q: account %d does not exist", row.Name, row.Account)
		}
		if tooLarge(row.Limit) {
			return fmt.Errorf("row %q: limit %d out of range", row.Name, row.Limit)
		}
	}
	return nil
}

func (p *Problem) validParts() error {
	for n, g := range p.Parts {
		if n == 0 && g != 0 || n > 0 && g <= p.Parts[n-1] || g >= len(p.Groups) {
			return fmt.Errorf("parts not ascending from 0, or beyond the groups")
		}
	}
	return nil
}

// noAccount says whether there can be no such account: sums are kept for all up to the
// last one, so there are no more than there are switches and rows to be on them.
func (p *Problem) noAccount(n int) bool { return n < 0 || n > len(p.Switches)+len(p.Rows) }

func tooLarge(v int64) bool { return v > Limit || v < -Limit }

func (p *Problem) validSwitch(h int) error {
	s := &p.Switches[h]
	if p.noAccount(s.Account) {
		return fmt.Errorf("switch %q: account %d does not exist", s.Name, s.Account)
	}
	if s.Minimum < 0 || tooLarge(s.Minimum) || tooLarge(s.Fixed) {
		return fmt.Errorf("switch %q: charge out of range", s.Name)
	}
	// A switch that needs only earlier ones can be in no cycle; callers that
	// want another order renumber.
	for _, n := range s.Needs {
		if n < 0 || n >= len(p.Switches) || n == h {
			return fmt.Errorf("switch %q needs switch %d, which does not exist", s.Name, n)
		}
	}
	if err := p.validTerms(s.Terms); err != nil {
		return fmt.Errorf("switch %q: %w", s.Name, err)
	}
	return p.acyclic(h)
}

// acyclic reports a chain of needs that comes back to h.
func (p *Problem) acyclic(h int) error {
	seen := make([]bool, len(p.Switches))
	todo := append([]int(nil), p.Switches[h].Needs...)
	for len(todo) > 0 {
		n := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if n == h {
			return fmt.Errorf("switch %q needs itself", p.Switches[h].Name)
		}
		if n < 0 || n >= len(p.Switches) || seen[n] {
			continue
		}
		seen[n] = true
		todo = append(todo, p.Switches[n].Needs...)
	}
	return nil
}

func (p *Problem) validColumn(c *Column) error {
	if tooLarge(c.Cost) || tooLarge(c.Tie[0]) || tooLarge(c.Tie[1]) {
		return fmt.Errorf("cost out of range")
	}
	if err := p.validTerms(c.Terms); err != nil {
		return err
	}
	last := -1
	for _, h := range c.Needs {
		if h <= last || h >= len(p.Switches) {
			return fmt.Errorf("needs of switches not ascending or beyond the list")
		}
		last = h
	}
	last = -1
	for _, l := range c.Loads {
		if l.Switch <= last || !contains(c.Needs, l.Switch) {
			return fmt.Errorf("load on a switch the column does not need, or out of order")
		}
		if l.Amount < 0 || tooLarge(l.Amount) {
			return fmt.Errorf("load %d out of range", l.Amount)
		}
		last = l.Switch
	}
	return nil
}

func (p *Problem) validTerms(terms []Term) error {
	last := -1
	for _, t := range terms {
		if t.Row <= last || t.Row >= len(p.Rows) {
			return fmt.Errorf("rows not ascending or beyond the list")
		}
		if tooLarge(t.Coef) {
			return fmt.Errorf("coefficient %d out of range", t.Coef)
		}
		last = t.Row
	}
	return nil
}

func (p *Problem) validGroups(groups []int, n int, width func(int) int) error {
	if n != len(groups) {
		return fmt.Errorf("%d lists for %d groups", n, len(groups))
	}
	last := -1
	for i, g := range groups {
		if g <= last || g >= len(p.Groups) {
			return fmt.Errorf("groups not ascending or beyond the list")
		}
		if width(i) != len(p.Groups[g].Columns) {
			return fmt.Errorf("group %d has %d columns, the list %d", g, len(p.Groups[g].Columns), width(i))
		}
		last = g
	}
	return nil
}

func magnitude(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}

func contains(list []int, v int) bool {
	for _, w := range list {
		if w == v {
			return true
		}
	}
	return false
}
