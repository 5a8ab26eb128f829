package sheet

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"hubrule/internal/outside"
	"hubrule/internal/testsheet"
	"hubrule/render/request"
)

// TestEllipsesInTheRaster: librsvg paints the wheels of a perspective sheet, ImageMagick takes the moments of what it painted; both axes are those of
// the arcs that are written, within a twentieth of a millimetre.
func TestEllipsesInTheRaster(t *testing.T) {
	t.Parallel()
	outside.Need(t, "rsvg-convert", "convert")
	f := testsheet.ReadSVG(t, testsheet.SvgOf(t, shotPages(t, testsheet.Plan(t, "suv"), shotSetting(t, "A3", "front-quarter"), request.Full)[0]))
	const dpi = 127 // five pixels a millimetre; the moments of a picture are far finer than its pixels
	for _, id := range []string{"wheel-front-left", "wheel-rear-left", "between-2"} {
		d := f.Shapes[id].At["d"]
		arc := testsheet.PathSteps(t, d)[1].Numbers
		x, y := arcCentre(testsheet.PathSteps(t, d)[0].Numbers, arc)
		alone := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="80mm" viewBox="%g %g 80 80"><path d="%s"/></svg>`, x-40, y-40, d)
		png := outside.File(t, "alone.png", outside.Run(t, "rsvg-convert", "-b", "white", "-d", fmt.Sprint(dpi), "-p", fmt.Sprint(dpi), outside.File(t, "alone.svg", []byte(alone))))
		said := string(outside.Run(t, "convert", png, "-colorspace", "Gray", "-negate", "-verbose", "-moments", "info:"))
		m := regexp.MustCompile(`Ellipse Semi-Major/Minor axis: ([0-9.]+),([0-9.]+)`).FindStringSubmatch(said)
		if m == nil {
			t.Fatalf("ImageMagick says no axes: %s", said)
		}
		for i, want := range arc[:2] {
			pixels, err := strconv.ParseFloat(m[1+i], 64)
			if err != nil {
				t.Fatal(err)
			}
			if got := pixels * 25.4 / dpi; math.Abs(got-want) > .05 {
				t.Errorf("%s: half axis %d measures %.3f mm, %.3f is written", id, i+1, got, want)
			}
		}
	}
}
