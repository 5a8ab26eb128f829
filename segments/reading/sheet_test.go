package reading

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"hubrule/render/request"
)

// photographed writes a marks file of a photograph of a sheet, 3000 by 2000 pixels, taken turned and tilted by so many degrees, with a wheel
// of 50 mm on A3. Claim is the paper as the file has it. Off moves the top centring mark to the right, in pixels.
func photographed(t *testing.T, name, claim string, turned, tilted, off float64, bar bool) string {
	t.Helper()
	paper, ok := request.FindPaper(strings.TrimSuffix(name, " upright"))
	if name != paper.Name {
		paper = paper.Portrait()
	}
	if !ok {
		t.Fatal(name)
	}
	size := float64(min(paper.Width, paper.Height)) / 297
	sinTurn, cosTurn := math.Sincos(turned / degrees(1))
	sinTilt, cosTilt := math.Sincos(tilted / degrees(1))
	see := func(x, y float64) string { // from the middle of the page
		x, y = x*cosTurn-y*sinTurn, x*sinTurn+y*cosTurn
		depth := 700*size - y*sinTilt
		return fmt.Sprintf("[%.1f, %.1f]", 1500+2800*x/depth, 1000+2800*y*cosTilt/depth)
	}
	tyre := func(x float64) string {
		var points []string
		for i := range 12 {
			sin, cos := math.Sincos(float64(i) / 6 * math.Pi)
			points = append(points, see(size*(x+25*cos), size*(40+25*sin)))
		}
		return "[" + strings.Join(points, ", ") + "]"
	}
	var ends [4]string
	for i, end := range paper.CentringEnds(false) {
		ends[i] = see(float64(end.X-paper.Width/2), float64(end.Y-paper.Height/2))
	}
	var x, y float64
	fmt.Sscanf(ends[1], "[%f, %f]", &x, &y)
	ends[1] = fmt.Sprintf("[%.1f, %.1f]", x+off, y)
	sheet := fmt.Sprintf("paper: %s, left: %s, top: %s, right: %s, bottom: %s", claim, ends[0], ends[1], ends[2], ends[3])
	if bar {
		sheet += fmt.Sprintf(", bar: [%s, %s]", see(-50, 90*size), see(50, 90*size))
	}
	return "kind: marks\nsize: [3000, 2000]\nfacing: left\non-sheet: {" + sheet + "}\nmarks:\n  tyre-front: " + tyre(-90) +
		"\n  tyre-rear: " + tyre(90) + "\n  roof: " + see(0, -30*size) + "\n"
}

// The paper under a sketch is looked at: its bar must be as long as it is, its sides as they can be seen, its circles round.
func TestWrongPaper(t *testing.T) {
	for _, tt := range []struct {
		paper, claim        string
		turned, tilted, off float64
		bar                 bool
		want                string
	}{
		{"A3", "A3", 0, 0, 0, false, ""},
		{"A3", "A3", 5, 35, 0, true, "the check bar comes out at 100.0 mm of 100"},
		{"A4 upright", "A4, portrait: true", 4, 30, 0, false, ""},
		{"A3", "A4", 3, 25, 0, true,
			"s.yaml:4:123: on-sheet.bar: the check bar comes out at 68.7 mm; want 98 to 102; is it paper: A3?"},
		{"A4", "A3", 0, 0, 0, true,
			"s.yaml:4:124: on-sheet.bar: the check bar comes out at 145.7 mm; want 98 to 102; is it paper: A4?"},
		{"A4 upright", "A4", 2, 20, 0, false,
			"s.yaml:4:11: on-sheet: no camera sees the centring marks of paper: A4 where these are; is it paper: A4, portrait: true?"},
		{"letter", "A4", 2, 0, 0, false,
			"both tyres come out oval, by 1.10: a centring mark or the paper is wrong, or they are drawn so; is it paper: letter?"},
		{"legal", "A4", 0, 0, 0, false,
			"s.yaml:4:11: on-sheet: both tyres come out oval, by 1.18; want the inner end of each centring mark, and the sheet's paper; is it paper: legal?"},
		{"A3", "A3", 0, 0, 60, false,
			"both tyres come out oval, by 1.07: a centring mark or the paper is wrong, or they are drawn so"},
		{"A3", "A3", 0, 0, 400, false,
			"s.yaml:4:11: on-sheet: no camera sees the centring marks of paper: A3 where these are; want the ends of the 100 mm bar, the centring marks' inner ends and the sheet's paper"},
		{"A3", "A3", 0, 0, 200, true,
			"s.yaml:4:11: on-sheet: both tyres come out oval, by 1.23; want the inner end of each centring mark, and the sheet's paper"},
	} {
		text := photographed(t, tt.paper, tt.claim, tt.turned, tt.tilted, tt.off, tt.bar)
		folder := folderWith(t, map[string]string{"s.yaml": text})
		file, err := LoadMarks(filepath.Join(folder, "s.yaml"), nil)
		var r Reading
		if err == nil {
			r, err = file.Reading()
		}
		got := strings.Join(r.Messages, "\n")
		if err != nil {
			got = strings.ReplaceAll(err.Error(), folder+"/", "")
		}
		if got != tt.want {
			t.Errorf("%s as %s, turned %g, tilted %g, top %g off:\n%s\nwant\n%s", tt.paper, tt.claim, tt.turned, tt.tilted, tt.off, got, tt.want)
		}
	}
}
