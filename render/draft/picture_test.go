package draft

import (
	"image"
	"reflect"
	"testing"

	"hubrule/render"
)

// A picture in a mirror lies in the mirrored box and has left and right changed; twice mirrored it is the same.
func TestPicturesMove(t *testing.T) {
	box := Box{Min: Pt(10, 20), Max: Pt(40, 60)}
	m := &render.Picture{Tagged: render.Tagged{Guide: "photo", ID: "photo"}, Box: box, Pixels: image.NewRGBA(image.Rect(0, 0, 3, 4)), Fade: .5}
	once := Mirrored(m, 50).(*render.Picture)
	if want := (Box{Min: Pt(60, 20), Max: Pt(90, 60)}); once.Box != want || !once.Mirrored || once.Pixels != m.Pixels {
		t.Errorf("mirrored: %+v; want %v", once, want)
	}
	if twice := Mirrored(once, 50); !reflect.DeepEqual(twice, render.Mark(m)) {
		t.Errorf("twice mirrored: %+v; want %+v", twice, m)
	}
	if moved, want := Moved(m, 2, Pt(1, -1)).(*render.Picture), (Box{Min: Pt(21, 39), Max: Pt(81, 119)}); moved.Box != want || moved.Mirrored {
		t.Errorf("moved: %+v; want %v", moved, want)
	}
	e := ExtentOf(m)
	inside, beside := Box{Min: Pt(20, 30), Max: Pt(21, 31)}, Box{Min: Pt(41, 20), Max: Pt(50, 60)}
	if !e.Intersects(inside) || e.Intersects(beside) || e.Box() != box {
		t.Errorf("it reaches over %v", e.Box())
	}
}
