package view

import "slices"

// edge is an edge of a grid: from a corner along its column, or to the next one.
type edge struct{ i, j, toI, toJ int }

// zeroRuns follows the line along which values on a grid change their sign through every cell, and returns what lies on the edges
// that it cuts: first the runs that are open, then those that are closed.
func zeroRuns[T any](values [][]float64, on func(edge) T) [][]T {
	next := map[edge][]edge{} // the edges that follow each other
	var order []edge          // as they were found
	for i := range len(values) - 1 {
		for j := range len(values[i]) - 1 {
			for pair := range slices.Chunk(cutEdges(values, i, j), 2) {
				for k, e := range pair {
					if next[e] == nil {
						order = append(order, e)
					}
					next[e] = append(next[e], pair[1-k])
				}
			}
		}
	}
	used := map[edge]bool{}
	walk := func(e edge) []T {
		var run []T
		for i := 0; i >= 0; {
			used[e] = true
			run = append(run, on(e))
			if i = slices.IndexFunc(next[e], func(n edge) bool { return !used[n] }); i >= 0 {
				e = next[e][i]
			}
		}
		return run
	}
	var out [][]T
	for _, e := range order {
		if len(next[e]) == 1 && !used[e] {
			out = append(out, walk(e))
		}
	}
	for _, e := range order {
		if !used[e] {
			run := walk(e)
			out = append(out, append(run, run[0]))
		}
	}
	return out
}

// cutEdges returns the edges of one cell of the grid that the line cuts, each two that follow each other side by side.
func cutEdges(values [][]float64, i, j int) []edge {
	corners := [4]float64{values[i][j], values[i+1][j], values[i+1][j+1], values[i][j+1]}
	edges := [4]edge{{i, j, i + 1, j}, {i + 1, j, i + 1, j + 1}, {i, j + 1, i + 1, j + 1}, {i, j, i, j + 1}}
	var cut []edge
	for k := range corners {
		if (corners[k] > 0) != (corners[(k+1)%4] > 0) {
			cut = append(cut, edges[k])
		}
	}
	middle := corners[0] + corners[1] + corners[2] + corners[3]
	if len(cut) == 4 && (middle > 0) != (corners[0] > 0) { // a saddle: the middle decides which corners belong together
		return []edge{cut[3], cut[0], cut[1], cut[2]}
	}
	return cut
}
