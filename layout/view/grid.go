package view

// edge names an edge of a panel's grid by its lower end: along its column, or to the next one.
type edge struct {
	i, j   int
	across bool
}

// linker returns what notes that two edges belong together; order keeps the edges as they came.
func linker(links map[edge][]edge, order *[]edge) func(a, b edge) {
	return func(a, b edge) {
		for _, e := range [2]edge{a, b} {
			if _, seen := links[e]; !seen {
				*order = append(*order, e)
			}
		}
		links[a], links[b] = append(links[a], b), append(links[b], a)
	}
}

// cellLinks joins the edges of one cell of the grid through which the contour passes.
func cellLinks(away [][]float64, i, j int, link func(a, b edge)) {
	corners := [4]float64{away[i][j], away[i+1][j], away[i+1][j+1], away[i][j+1]}
	edges := [4]edge{{i, j, true}, {i + 1, j, false}, {i, j + 1, true}, {i, j, false}}
	var cut []edge
	for k := range corners {
		if (corners[k] > 0) != (corners[(k+1)%4] > 0) {
			cut = append(cut, edges[k])
		}
	}
	switch len(cut) {
	case 2:
		link(cut[0], cut[1])
	case 4: // a saddle: the middle decides which corners belong together
		if middle := corners[0] + corners[1] + corners[2] + corners[3]; (middle > 0) == (corners[0] > 0) {
			link(cut[0], cut[1])
			link(cut[2], cut[3])
		} else {
			link(cut[3], cut[0])
			link(cut[1], cut[2])
		}
	}
}

// runs walks the links from end to end, first the open runs, then the closed ones.
func runs(order []edge, links map[edge][]edge, at map[edge]joint) [][]joint {
	used := map[edge]bool{}
	var out [][]joint
	walk := func(e edge) {
		var run []joint
		for ok := true; ok; {
			used[e] = true
			run = append(run, at[e])
			ok = false
			for _, next := range links[e] {
				if !used[next] {
					e, ok = next, true
					break
				}
			}
		}
		out = append(out, run)
	}
	for _, e := range order {
		if len(links[e]) == 1 && !used[e] {
			walk(e)
		}
	}
	for _, e := range order {
		if !used[e] {
			walk(e)
			run := out[len(out)-1]
			out[len(out)-1] = append(run, run[0])
		}
	}
	return out
}
