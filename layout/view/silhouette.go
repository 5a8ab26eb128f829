package view

// Silhouette returns the edge of what the vehicle covers of the picture, wheels included, as closed loops to be filled by the even-odd
// rule. The edge is found along the lines of a grid by halving, so that it lies where the vehicle ends, not where a raster does;
// its corners are cut by less than a cell.
func (sc *Scene) Silhouette() [][]ImagePoint {
	const across = 320
	size := max(sc.box.Width(), sc.box.Height()) / across
	corner := func(i, j int) ImagePoint {
		return ImagePoint{X: sc.box.Min.X + ImageLength((ImageLength(i)-.5)*size), Y: sc.box.Min.Y + ImageLength((ImageLength(j)-.5)*size)}
	}
	free := make([][]float64, int(sc.box.Width()/size)+3) // positive where nothing covers the picture
	for i := range free {
		free[i] = make([]float64, int(sc.box.Height()/size)+3)
		for j := range free[i] {
			free[i][j] = 1
			if sc.Covers(corner(i, j)) {
				free[i][j] = -1
			}
		}
	}
	return runs(newZeroLine(free), func(e edge) ImagePoint {
		from, to := corner(e.i, e.j), corner(e.i, e.j+1)
		if e.across {
			to = corner(e.i+1, e.j)
		}
		if free[e.i][e.j] > 0 {
			from, to = to, from
		}
		return sc.edgeBetween(from, to)
	})
}

// edgeBetween returns where the vehicle ends between a place it covers and one it does not.
func (sc *Scene) edgeBetween(covered, free ImagePoint) ImagePoint {
	for range 20 {
		if mid := covered.Lerp(free, .5); sc.Covers(mid) {
			covered = mid
		} else {
			free = mid
		}
	}
	return covered
}
