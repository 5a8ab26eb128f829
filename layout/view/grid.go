package view

// edge names an edge of a panel's grid by its lower end: along its column, or to the next one.
type edge struct {
	i, j   int
	across bool
}

// zeroLine is the line along which values on a grid change their sign: the edges that it cuts, and which of them follow each other.
type zeroLine struct {
	next  map[edge][]edge
	order []edge // as they were found
}

// newZeroLine follows the change of sign through every cell of a grid.
func newZeroLine(values [][]float64) zeroLine {
	z := zeroLine{next: map[edge][]edge{}}
	for i := 0; i+1 < len(values); i++ {
		for j := 0; j+1 < len(values[i]); j++ {
			z.addCell(values, i, j)
		}
	}
	return z
}

// join notes that two edges follow each other.
func (z *zeroLine) join(a, b edge) {
	for _, e := range [2]edge{a, b} {
		if _, seen := z.next[e]; !seen {
			z.order = append(z.order, e)
		}
	}
	z.next[a], z.next[b] = append(z.next[a], b), append(z.next[b], a)
}

// addCell joins the edges of one cell of the grid that the line cuts.
func (z *zeroLine) addCell(values [][]float64, i, j int) {
	corners := [4]float64{values[i][j], values[i+1][j], values[i+1][j+1], values[i][j+1]}
	edges := [4]edge{{i, j, true}, {i + 1, j, false}, {i, j + 1, true}, {i, j, false}}
	var cut []edge
	for k := range corners {
		if (corners[k] > 0) != (corners[(k+1)%4] > 0) {
			cut = append(cut, edges[k])
		}
	}
	switch len(cut) {
	case 2:
		z.join(cut[0], cut[1])
	case 4: // a saddle: the middle decides which corners belong together
		if middle := corners[0] + corners[1] + corners[2] + corners[3]; (middle > 0) == (corners[0] > 0) {
			z.join(cut[0], cut[1])
			z.join(cut[2], cut[3])
		} else {
			z.join(cut[3], cut[0])
			z.join(cut[1], cut[2])
		}
	}
}

// runs walks z from end to end, first the open runs, then the closed ones, and returns what lies on each edge.
func runs[T any](z zeroLine, on func(edge) T) [][]T {
	used := map[edge]bool{}
	walk := func(e edge) []T {
		var run []T
		for ok := true; ok; {
			used[e] = true
			run = append(run, on(e))
			ok = false
			for _, next := range z.next[e] {
				if !used[next] {
					e, ok = next, true
					break
				}
			}
		}
		return run
	}
	var out [][]T
	for _, e := range z.order {
		if len(z.next[e]) == 1 && !used[e] {
			out = append(out, walk(e))
		}
	}
	for _, e := range z.order {
		if !used[e] {
			run := walk(e)
			out = append(out, append(run, run[0]))
		}
	}
	return out
}
