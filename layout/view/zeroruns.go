package view

// edge is an edge of a grid: from a corner along its column, or to the next one.
type edge struct{ i, j, toI, toJ int }

// cutEdge is an edge that a line cuts, with those of the edges before and after it that are known, by their numbers.
type cutEdge struct {
	edge
	next   [2]int32
	known  int8
	isUsed bool
}

// cutEdges are the edges of a grid that a line cuts, as they were found, and the numbers of those between two of its columns.
type cutEdges struct {
	all     []cutEdge
	upright [2][]int32 // of the edges along the two columns, by the parity of the column and the row; −1: not cut
	across  []int32    // of those from one to the other
}

// number returns the number of an edge, which is entered if it is new.
func (c *cutEdges) number(e edge) int32 {
	n := &c.across[e.j]
	if e.i == e.toI {
		n = &c.upright[e.i&1][e.j]
	}
	if *n < 0 {
		*n = int32(len(c.all))
		c.all = append(c.all, cutEdge{edge: e})
	}
	return *n
}

// join makes two edges follow each other.
func (c *cutEdges) join(e, f edge) {
	a, b := c.number(e), c.number(f)
	for _, pair := range [2][2]int32{{a, b}, {b, a}} {
		at := &c.all[pair[0]]
		at.next[at.known] = pair[1]
		at.known++
	}
}

// walk puts the edges that follow one, itself included, at the end of run, and marks them.
func (c *cutEdges) walk(run []edge, from int32) []edge {
	for at := from; at >= 0; {
		e := &c.all[at]
		e.isUsed, at = true, -1
		run = append(run, e.edge)
		for _, n := range e.next[:e.known] {
			if !c.all[n].isUsed {
				at = n
				break
			}
		}
	}
	return run
}

// zeroRuns follows the line along which values on a grid change their sign through every cell, and returns what lies on the edges
// that it cuts: first the runs that are open, then those that are closed.
func zeroRuns[V int8 | float64, T any](values [][]V, on func(edge) T) (out [][]T) {
	rows := len(values[0])
	cut := cutEdges{upright: [2][]int32{none(rows), none(rows)}, across: none(rows)}
	for i := range len(values) - 1 {
		reset(cut.upright[(i+1)&1])
		reset(cut.across)
		for j := range rows - 1 {
			edges, n := cutInCell(values, i, j)
			for k := 0; k < n; k += 2 {
				cut.join(edges[k], edges[k+1])
			}
		}
	}
	var edges []edge
	for _, isOpen := range [2]bool{true, false} {
		for i := range cut.all {
			if e := &cut.all[i]; e.isUsed || isOpen && e.known != 1 {
				continue
			}
			edges = cut.walk(edges[:0], int32(i))
			run := make([]T, len(edges), len(edges)+1)
			for k, e := range edges {
				run[k] = on(e)
			}
			if !isOpen {
				run = append(run, run[0])
			}
			out = append(out, run)
		}
	}
	return out
}

// none returns numbers of edges that are not cut.
func none(rows int) []int32 {
	out := make([]int32, rows)
	reset(out)
	return out
}

func reset(numbers []int32) {
	for i := range numbers {
		numbers[i] = -1
	}
}

// cutInCell returns the edges of one cell of the grid that the line cuts, and how many they are: each two that follow each other side by
// side.
func cutInCell[V int8 | float64](values [][]V, i, j int) (cut [4]edge, n int) {
	corners := [4]V{values[i][j], values[i+1][j], values[i+1][j+1], values[i][j+1]}
	if first := corners[0] > 0; first == (corners[1] > 0) && first == (corners[2] > 0) && first == (corners[3] > 0) {
		return cut, 0
	}
	edges := [4]edge{{i, j, i + 1, j}, {i + 1, j, i + 1, j + 1}, {i, j + 1, i + 1, j + 1}, {i, j, i, j + 1}}
	for k := range corners {
		if (corners[k] > 0) != (corners[(k+1)%4] > 0) {
			cut[n] = edges[k]
			n++
		}
	}
	middle := corners[0] + corners[1] + corners[2] + corners[3]
	if n == 4 && (middle > 0) != (corners[0] > 0) { // a saddle: the middle decides which corners belong together
		cut = [4]edge{cut[3], cut[0], cut[1], cut[2]}
	}
	return cut, n
}
