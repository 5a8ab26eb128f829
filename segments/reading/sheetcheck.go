package reading

import (
	"fmt"
	"math"

	"hubrule/internal/geom"
	"hubrule/render/request"
	"hubrule/segments/strict"
)

// barLength is how long the check bar is on paper.
const barLength geom.MM = 100

// Bounds of what is believed of a sheet (judged by eye).
const (
	barOff     = 2.  // mm that it may come out too long or short, or what its marks allow
	barBent    = 1.  // mm from which the page may be bent
	paperFits  = .03 // how far from square the likeliest camera may see a page: see misfit
	paperNever = .3
	mostOval   = 1.05 // axis ratio of tyres on paper
)

// misfit returns how far from square the likeliest camera sees the page: the logarithm of how much longer its widths come out than its
// heights, and the cosine of the angle between them, as the root of the sum of their squares. The camera is a pinhole with square pixels and its axis in the middle of the picture,
// from half the picture's diagonal away to a scanner at infinity: the columns of a plane's homography are two directions of equal length at
// right angles (R. Hartley and A. Zisserman, Multiple View Geometry in Computer Vision, 2004, 8.8; MEM).
func (s *Sheet) misfit(width, height Pixel) float64 {
	h := matrix{{1, 0, -float64(width / 2)}, {0, 1, -float64(height / 2)}, {0, 0, 1}}.times(s.toPaper.inverse())
	least := math.Inf(1)
	for f := .5 * math.Hypot(float64(width), float64(height)); f < 1e8; f *= 1.1 {
		var product [2][2]float64
		for i := range product {
			for j := range product {
				product[i][j] = (h[0][i]*h[0][j]+h[1][i]*h[1][j])/(f*f) + h[2][i]*h[2][j]
			}
		}
		least = min(least, math.Hypot(math.Log(product[0][0]/product[1][1])/2, product[0][1]/math.Sqrt(product[0][0]*product[1][1])))
	}
	return least
}

// bar returns how long the check bar comes out, in millimetres, and the ± of that from its marks.
func (s *Sheet) bar(sd float64) (long, pm float64) {
	a, one := s.flatten(s.Bar[0], sd)
	b, two := s.flatten(s.Bar[1], sd)
	return b.sub(a).len(), twoSided * math.Hypot(one, two)
}

// others lists the sheet on every other paper, turned and framed either way.
func (s *Sheet) others() (out []*Sheet) {
	for _, paper := range request.Papers() {
		for _, p := range []request.Paper{paper, paper.Portrait()} {
			for _, framed := range []bool{false, true} {
				o := &Sheet{Paper: p, Framed: framed, Ends: s.Ends, Bar: s.Bar}
				if (p != s.Paper || framed != s.Framed) && o.prepare() {
					out = append(out, o)
				}
			}
		}
	}
	return out
}

// keys writes the paper as marks files do.
func (s *Sheet) keys() string {
	text := "paper: " + s.Paper.Name
	if s.Paper.Height > s.Paper.Width {
		text += ", portrait: true"
	}
	if s.Framed {
		text += ", frame: true"
	}
	return text
}

// fits returns the paper that fits better than s does, by the marks alone and, where it was marked, by the bar; nil if there is none.
func (s *Sheet) fits(m *Marks) (best *Sheet) {
	least := math.Inf(1)
	for _, o := range s.others() {
		bad := o.misfit(m.Width, m.Height)
		if bad > paperFits {
			continue
		}
		if len(s.Bar) == 2 {
			long, _ := o.bar(0)
			if bad += math.Abs(long-float64(barLength)) / float64(barLength); math.Abs(long-float64(barLength)) > barOff {
				continue
			}
		}
		if o.Framed != s.Framed { // less likely wrong than the paper
			bad += .01
		}
		if bad < least {
			least, best = bad, o
		}
	}
	return best
}

// checkPaper refuses a paper that is not the one in the picture; at and bar are its places in the file.
func (s *Sheet) checkPaper(m *Marks, at, bar strict.Value) {
	advice := func() string {
		if fit := s.fits(m); fit != nil {
			return "; is it " + fit.keys() + "?"
		}
		return "; want the ends of the 100 mm bar, the centring marks' inner ends and the sheet's paper"
	}
	if len(s.Bar) == 2 {
		if long, pm := s.bar(float64(m.defaultPM()) / twoSided); math.Abs(long-float64(barLength)) > max(barOff, pm) {
			off := max(barOff, pm)
			bar.Problem("the check bar comes out at %.1f mm; want %.4g to %.4g%s", long, float64(barLength)-off,
				float64(barLength)+off, advice())
			return
		}
	}
	if !m.Cropped && s.misfit(m.Width, m.Height) > paperNever { // cropped, the picture's middle is not the camera's
		at.Problem("no camera sees the centring marks of %s where these are%s", s.keys(), advice())
	}
}

// messages reports what the check bar says, if it was marked: on a bent page it comes out too long or too short.
func (s *Sheet) messages() []string {
	if len(s.Bar) < 2 {
		return nil
	}
	long, _ := s.bar(0)
	text := fmt.Sprintf("the check bar comes out at %.1f mm of %.0f", long, float64(barLength))
	if math.Abs(long-float64(barLength)) > barBent {
		text += ": the page is bent, or a centring mark is wrong"
	}
	return []string{text}
}

// ovalTyres reports that both tyres come out oval on the paper, beyond what their marks allow, and how oval the rounder one is.
func (m *Marks) ovalTyres() (ratio float64, oval bool) {
	ratio = math.Inf(1)
	for n := TyreFront; n <= TyreRear; n++ {
		of, sd, ok := axisRatio(m.sightings(n))
		if !ok || of < mostOval || of-1 < 3*sd {
			return 0, false
		}
		ratio = min(ratio, of)
	}
	return ratio, true
}

// rounder asks whether the sheet is the likeliest one on whose paper the tyres are round; "" where there is none.
func (m *Marks) rounder() string {
	ask, least := "", paperFits
	for _, o := range m.Sheet.others() {
		on := *m
		on.Sheet = o
		if _, oval := on.ovalTyres(); !oval && o.misfit(m.Width, m.Height) < least && o.Framed == m.Sheet.Framed {
			least, ask = o.misfit(m.Width, m.Height), "; is it "+o.keys()+"?"
		}
	}
	return ask
}

// axisRatio returns the ratio of the axes of the ellipse through marks, and its standard deviation.
func axisRatio(marks []sighting) (ratio, sd float64, ok bool) {
	points := make([]vec, len(marks))
	for i, s := range marks {
		points[i] = s.at
	}
	at := func() float64 {
		c, found := fitEllipse(points)
		_, s := c.centre()
		ok = found
		middle, off := (s[0][0]+s[1][1])/2, math.Hypot((s[0][0]-s[1][1])/2, s[0][1])
		return math.Sqrt((middle + off) / (middle - off))
	}
	if ratio = at(); !ok {
		return 0, 0, false
	}
	for i := range points {
		for _, coordinate := range []*float64{&points[i].x, &points[i].y} {
			kept, step := *coordinate, marks[i].sd/4
			*coordinate = kept + step
			sd = math.Hypot(sd, (at()-ratio)/step*marks[i].sd)
			if *coordinate = kept; !ok {
				return 0, 0, false
			}
		}
	}
	return ratio, sd, true
}
