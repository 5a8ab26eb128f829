package reading

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"hubrule/segments"
)

const testdata = "../../testdata/reading"

// caseFigure is a figure of a case: true, read from exact marks, and read from noisy marks with its ±.
type caseFigure struct {
	True, Exact float64
	Noisy       [2]float64
}

// cases are the six invented vehicles in testdata: photographs by a camera that shares no code with this package, and what an
// independent program of the same method (in Python, with NumPy) reads from them.
func cases(t *testing.T) (out map[string]struct {
	Lens    bool
	Yaw     float64
	Figures map[string]caseFigure
}) {
	data, err := os.ReadFile(filepath.Join(testdata, "figures.json"))
	if err == nil {
		err = json.Unmarshal(data, &out)
	}
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// readCase reads a marks file of testdata.
func readCase(t *testing.T, name string) Reading {
	t.Helper()
	file, err := LoadMarks(filepath.Join(testdata, name+".yaml"), nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := file.Reading()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// From exact marks every figure is that of the other program within .002, and from noisy ones within .2 of its ±, where the lens is
// known. Of all true figures at least 95 in 100 lie inside the ±.
func TestCases(t *testing.T) {
	inside, all := 0, 0
	for name, c := range cases(t) {
		exact, noisy := readCase(t, name+"-exact"), readCase(t, name+"-noisy")
		for figure, want := range c.Figures {
			f, known := segments.Lookup(figure)
			if !known {
				t.Fatalf("%s: no figure is named %s", name, figure)
			}
			e, n := exact.Figures[f], noisy.Figures[f]
			if off := math.Abs(e.Value - want.Exact); c.Lens && off > .002 {
				t.Errorf("%s, exact marks: %s %.4f, want %.4f", name, f, e.Value, want.Exact)
			}
			if off := math.Abs(n.Value - want.Noisy[0]); c.Lens && off > .2*want.Noisy[1] {
				t.Errorf("%s, noisy marks: %s %.4f, want %.4f ± %.4f", name, f, n.Value, want.Noisy[0], .2*want.Noisy[1])
			}
			if c.Lens && math.Abs(n.PM/want.Noisy[1]-1) > .1 {
				t.Errorf("%s, noisy marks: %s ± %.4f, want ± %.4f", name, f, n.PM, want.Noisy[1])
			}
			all++
			if math.Abs(n.Value-want.True) <= n.PM {
				inside++
			} else {
				t.Logf("%s: %s %.4f ± %.4f, truly %.4f", name, f, n.Value, n.PM, want.True)
			}
		}
		if off := math.Abs(exact.Camera.Yaw - c.Yaw); c.Lens && off > .05 {
			t.Errorf("%s: yaw %.3f, want %g", name, exact.Camera.Yaw, c.Yaw)
		}
	}
	if share := float64(inside) / float64(all); !(share >= .95) { // NaN is no share
		t.Errorf("%.3f of %d true figures inside their ±, want .95", share, all)
	}
}

// Without a focal length or far tyres nothing tells the skew, and overhangs cannot be read.
func TestCannotTell(t *testing.T) {
	r := readCase(t, "no-help-noisy")
	if r.Skew != CannotTell {
		t.Errorf("skew %q, want %q", r.Skew, CannotTell)
	}
	for _, f := range acrossFigures {
		if v := r.Figures[f]; v.State != Unreadable {
			t.Errorf("%s is %q, want %q", f, v.State, Unreadable)
		}
	}
	if v := r.Figures[segments.Sill]; v.State != Read {
		t.Errorf("sill is %q, want %q", v.State, Read)
	}
}
