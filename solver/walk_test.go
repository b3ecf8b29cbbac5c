package solver

// eachPick calls found for every pick of an instance's columns, and every setting of
// voluntary switches, that breaks nothing, with its total.
func eachPick(p *Problem, in *instance, found func(pick []int, on []bool, total int64)) {
	var vol []int
	for h := range p.Switches {
		if p.Switches[h].Voluntary {
			vol = append(vol, h)
		}
	}
	pick, orig := make([]int, len(in.groups)), make([]int, len(in.groups))
	var walk func(g int)
	walk = func(g int) {
		if g < len(pick) {
			for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
				pick[g], orig[g] = c, in.cols[c].orig
				walk(g + 1)
			}
			return
		}
		for mask := range 1 << len(vol) {
			on := make([]bool, len(p.Switches))
			for i, h := range vol {
				on[h] = mask>>i&1 == 1
			}
			if o := p.Evaluate(orig, on, Change{}); len(o.Broken) == 0 {
				found(pick, o.On, o.Total)
			}
		}
	}
	walk(0)
}
