package outline

import (
	"math"

	"hubrule/internal/geom"
)

// polyline returns run as 24 chords a cubic: within a few 1e-4 w of it, enough for what keeps its distance from it.
func polyline(run []cubic) []point {
	const chords = 24
	pts := []point{run[0][0]}
	for _, c := range run {
		for i := 1; i <= chords; i++ {
			pts = append(pts, c.At(float64(i)/chords))
		}
	}
	return pts
}

// heightAt returns the greatest height of the polyline over x, −1 where it does not reach x.
func heightAt(line []point, x geom.Wheels) geom.Wheels {
	best := geom.Wheels(-1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if (a.X-x)*(b.X-x) <= 0 && a.X != b.X {
			best = max(best, a.Lerp(b, float64((x-a.X)/(b.X-a.X))).Y)
		}
	}
	return best
}

// extentAt returns the least and the greatest x of the polyline at height y; a height it does not reach gives the nearest end's.
func extentAt(line []point, y geom.Wheels) (front, rear geom.Wheels) {
	front, rear = geom.Wheels(math.Inf(1)), geom.Wheels(math.Inf(-1))
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if (a.Y-y)*(b.Y-y) <= 0 && a.Y != b.Y {
			x := a.Lerp(b, float64((y-a.Y)/(b.Y-a.Y))).X
			front, rear = min(front, x), max(rear, x)
		}
	}
	if front > rear {
		return line[0].X, line[len(line)-1].X
	}
	return front, rear
}
