package solver

// domain is what is still possible at a node: columns alive, and per switch
// off (0), on (1) or open (-1).
type domain struct {
	alive bits
	y     []int8
}

const (
	open int8 = -1
	off  int8 = 0
	on   int8 = 1
)

func (in *instance) fullDomain() *domain {
	d := &domain{alive: fullBits(len(in.cols)), y: make([]int8, len(in.switches))}
	for h := range d.y {
		d.y[h] = open
	}
	return d
}

func (d *domain) clone() *domain {
	return &domain{d.alive.clone(), append([]int8(nil), d.y...)}
}

// count is the number of columns of group g alive, up to most.
func (in *instance) count(d *domain, g, most int) int {
	n := 0
	for c := in.first(d, g); c < in.groups[g][1] && n < most; c = d.alive.next(c+1, in.groups[g][1]) {
		n++
	}
	return n
}

// someEmpty says whether some group has nothing left.
func (in *instance) someEmpty(d *domain) bool {
	for g := range in.groups {
		if in.first(d, g) == in.groups[g][1] {
			return true
		}
	}
	return false
}

func (in *instance) first(d *domain, g int) int {
	return d.alive.next(in.groups[g][0], in.groups[g][1])
}
