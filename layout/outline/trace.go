package outline

import (
	"math"

	"hubrule/internal/geom"
)

// chords is how many chords of each cubic stand for it: within a few 1e-4 w, enough for what keeps its distance from it.
const chords = 24

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
