package chart

import "fmt"

// Bar is one part of a sum, in cents; below zero it takes away from it.
type Bar struct {
	Label string
	Cents int64
}

// Bars draws what a sum is made of, a bar for each part, longest first as given.
func Bars(id, title, currency string, bars []Bar) string {
	const row, left, top = 26, 262, 10
	s := &svg{}
	most := int64(1)
	desc := ""
	for _, b := range bars {
		most = max(most, b.Cents, -b.Cents)
		desc += fmt.Sprintf("%s %s. ", b.Label, Money(b.Cents))
	}
	s.head(id, title, "Bars, in "+currency+": "+desc, float64(top+row*len(bars)+8))
	for i, b := range bars {
		y := float64(top + row*i)
		s.text(left-10, y+16, "end", short(b.Label, left-14))
		length := float64(max(b.Cents, -b.Cents)) / float64(most) * (Width - left - 110)
		if b.Cents < 0 {
			s.rect(left, y+3, length, row-9, "#ffffff", ink) // hollow: it is taken off
		} else {
			s.rect(left, y+3, length, row-9, blue, blue)
		}
		s.text(left+length+8, y+16, "start", Money(b.Cents))
	}
	s.line(left, top, left, float64(top+row*len(bars)), ink, 1, "")
	return s.end()
}
