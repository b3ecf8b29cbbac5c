package main

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
)

// matrix is an integer program read back from its MPS text, so that all solvers
// get the same and the judge shares nothing with the solver package.
// All columns are from 0; binary ones to 1, the others without an upper end.
type matrix struct {
	rows    []matrixRow
	columns []matrixColumn
	rowAt   map[string]int
	colAt   map[string]int
}

type matrixRow struct {
	name  string
	sense byte // E, L or G
	right int64
}

type matrixColumn struct {
	name    string
	integer bool
	upper   float64
	cost    int64
	entries []entry
}

type entry struct {
	row   int
	value int64
}

// readMPS reads the part of free MPS that solver.Problem writes: whole numbers,
// one entry a line, upper ends as the only bounds.
func readMPS(r io.Reader) (*matrix, error) {
	m := &matrix{rowAt: map[string]int{}, colAt: map[string]int{}}
	section, objective, integer := "", "", false
	scan := bufio.NewScanner(r)
	for line := 1; scan.Scan(); line++ {
		text := scan.Text()
		f := strings.Fields(text)
		if len(f) == 0 {
			continue
		}
		if text[0] != ' ' {
			section = f[0]
			continue
		}
		var err error
		switch {
		case section == "ROWS" && f[0] == "N":
			objective = f[1]
		case section == "ROWS":
			m.rowAt[f[1]] = len(m.rows)
			m.rows = append(m.rows, matrixRow{name: f[1], sense: f[0][0]})
		case section == "COLUMNS" && f[1] == "'MARKER'":
			integer = f[2] == "'INTORG'"
		case section == "COLUMNS":
			err = m.put(f, objective, integer)
		case section == "RHS":
			m.rows[m.rowAt[f[1]]].right, err = strconv.ParseInt(f[2], 10, 64)
		case section == "BOUNDS" && f[0] == "UP":
			m.columns[m.colAt[f[2]]].upper, err = strconv.ParseFloat(f[3], 64)
		default:
			err = fmt.Errorf("not understood")
		}
		if err != nil {
			return nil, fmt.Errorf("mps line %d: %q: %w", line, text, err)
		}
	}
	return m, scan.Err()
}

func (m *matrix) put(f []string, objective string, integer bool) error {
	at, ok := m.colAt[f[0]]
	if !ok {
		at = len(m.columns)
		m.colAt[f[0]] = at
		m.columns = append(m.columns, matrixColumn{name: f[0], integer: integer, upper: math.Inf(1)})
	}
	v, err := strconv.ParseInt(f[2], 10, 64)
	if err != nil {
		return err
	}
	c := &m.columns[at]
	if f[1] == objective {
		c.cost = v
		return nil
	}
	row, ok := m.rowAt[f[1]]
	if !ok {
		return fmt.Errorf("there is no row %q", f[1])
	}
	c.entries = append(c.entries, entry{row, v})
	return nil
}

// writeBinary writes the matrix by columns, as highs.py reads it: three counts,
// then cost, upper ends, integer marks, row ends (low, high), column starts, row
// indices and values; integers of 8 bytes and doubles, all little-endian.
func (m *matrix) writeBinary(path string) error {
	var cost, upper, low, high, value []float64
	var integer, index []int64
	start := []int64{0}
	for i := range m.columns {
		c := &m.columns[i]
		cost, upper = append(cost, float64(c.cost)), append(upper, c.upper)
		mark := int64(0)
		if c.integer {
			mark = 1
		}
		integer = append(integer, mark)
		for _, e := range c.entries {
			index, value = append(index, int64(e.row)), append(value, float64(e.value))
		}
		start = append(start, int64(len(index)))
	}
	for i := range m.rows {
		l, h := m.rows[i].ends()
		low, high = append(low, l), append(high, h)
	}
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	counts := []int64{int64(len(low)), int64(len(cost)), int64(len(value))}
	b := bufio.NewWriter(f)
	for _, part := range []any{counts, cost, upper, integer, low, high, start, index, value} {
		if err := binary.Write(b, binary.LittleEndian, part); err != nil {
			f.Close()
			return err
		}
	}
	if err := b.Flush(); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

func (r *matrixRow) ends() (low, high float64) {
	switch v := float64(r.right); r.sense {
	case 'L':
		return math.Inf(-1), v
	case 'G':
		return v, math.Inf(1)
	default:
		return v, v
	}
}
