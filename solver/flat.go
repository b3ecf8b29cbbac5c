package solver

import "slices"

// flat is an instance with its near and same rules as rows, every group by itself, and implied
// rows: what it has in its linear program is columns, not picks of blocks, so that what is
// added up there can be rounded. Its columns are the instance's, and so are its bounds.
type flat struct {
	in      *instance // with the implied rows last
	plain   *instance // without
	implied []*implied
}

func (in *instance) flat(d *domain) *flat {
	out := *in
	out.near, out.same = nil, nil
	out.entire = true
	out.blocks, out.blockOf = make([]block, len(in.groups)), make([]int, len(in.groups))
	for g := range in.groups {
		out.blocks[g], out.blockOf[g] = block{groups: []int{g}, halt: in.halt}, g
	}
	out.cols, out.rows, out.scale = slices.Clone(in.cols), slices.Clone(in.rows), slices.Clone(in.scale)
	out.pare(d)
	out.rulesAsRows(in, d)
	out.list()
	return &flat{in: &out, plain: &out}
}

// with is the same with other implied rows.
func (f *flat) with(rows ...[]*implied) *flat {
	in := *f.plain
	out := &flat{in: &in, plain: f.plain, implied: slices.Concat(rows...)}
	first := len(in.rows)
	in.rows, in.scale, in.cols = slices.Clip(in.rows), slices.Clip(in.scale), slices.Clone(in.cols)
	in.switches = slices.Clone(in.switches)
	for _, w := range out.implied {
		in.rows = append(in.rows, row{limit: w.limit, orig: -1})
		in.scale = append(in.scale, w.scale)
	}
	var terms []Term
	for c := range in.cols {
		k, from := &in.cols[c], len(terms)
		terms = append(terms, k.terms...)
		for i, w := range out.implied {
			if v := w.cols[c]; v != 0 {
				terms = append(terms, Term{first + i, v})
			}
		}
		k.terms = terms[from:len(terms):len(terms)]
	}
	for i, w := range out.implied {
		for _, t := range w.switches {
			k := &in.switches[t.Row]
			k.terms = append(slices.Clip(k.terms), Term{first + i, t.Coef})
		}
	}
	in.list()
	return out
}
