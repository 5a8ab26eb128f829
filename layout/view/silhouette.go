package view

// Silhouette returns the edge of what the vehicle covers of the picture, wheels included, as closed loops to be filled by the even-odd
// rule. The edge is found along the lines of a grid by halving, so that it lies where the vehicle ends, not where a raster does;
// its corners are cut by less than a cell.
func (sc *Scene) Silhouette() [][]ImagePoint {
	const across = 320
	size := max(sc.box.Width(), sc.box.Height()) / across
	columns, rows := int(sc.box.Width()/size)+3, int(sc.box.Height()/size)+3
	corner := func(i, j int) ImagePoint {
		return ImagePoint{X: sc.box.Min.X + ImageLength((ImageLength(i)-.5)*size), Y: sc.box.Min.Y + ImageLength((ImageLength(j)-.5)*size)}
	}
	away := make([][]float64, columns) // positive where nothing covers the picture
	for i := range away {
		away[i] = make([]float64, rows)
		for j := range away[i] {
			away[i][j] = 1
			if sc.Covers(corner(i, j)) {
				away[i][j] = -1
			}
		}
	}
	links, order := map[edge][]edge{}, []edge(nil)
	link := linker(links, &order)
	for i := 0; i+1 < columns; i++ {
		for j := 0; j+1 < rows; j++ {
			cellLinks(away, i, j, link)
		}
	}
	at := map[edge]joint{}
	for _, e := range order {
		from, to := corner(e.i, e.j), corner(e.i, e.j+1)
		if e.across {
			to = corner(e.i+1, e.j)
		}
		if away[e.i][e.j] > 0 {
			from, to = to, from
		}
		q := sc.rimBetween(from, to)
		at[e] = joint{q: place{float64(q.X), float64(q.Y)}}
	}
	var out [][]ImagePoint
	for _, run := range runs(order, links, at) {
		var loop []ImagePoint
		for _, j := range run {
			loop = append(loop, ImagePoint{X: ImageLength(j.q.x), Y: ImageLength(j.q.y)})
		}
		out = append(out, loop)
	}
	return out
}

// rimBetween returns where the vehicle ends between a place it covers and one it does not.
func (sc *Scene) rimBetween(covered, free ImagePoint) ImagePoint {
	for range 20 {
		if mid := covered.Lerp(free, .5); sc.Covers(mid) {
			covered = mid
		} else {
			free = mid
		}
	}
	return covered
}
