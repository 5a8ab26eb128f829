package view

import (
	"math"

	"hubrule/internal/geom"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// The bounds of a lens, judged by eye: shorter ones bend the vehicle beyond use, longer ones flatten it to its side view.
const (
	LeastLens = 15
	MostLens  = 400
)

// LoadCameraSpec reads a camera's file: kind: camera, extends: one of the presets (front-quarter where none is said), and what differs from it.
// What is wrong inside the file comes back as a *strict.Problems.
func LoadCameraSpec(path string) (CameraSpec, error) {
	doc, err := strict.Load(path)
	if err != nil {
		return CameraSpec{}, err
	}
	if v, ok := doc.Peek("kind"); !ok {
		doc.Top().Problem("no kind; want kind: camera")
		return CameraSpec{}, doc.Err()
	} else if _, ok := v.Choice("kind of file", []string{"camera"}); !ok {
		return CameraSpec{}, doc.Err()
	}
	top := doc.Top().Table("key", []string{"kind", "extends", "turn", "eye", "distance", "lens", "tilt"})
	st, _ := FindPreset(Presets()[0].Name)
	if v, ok := top.Get("extends"); ok {
		var names []string
		for _, s := range Presets() {
			names = append(names, s.Name)
		}
		if name, ok := v.Choice("camera", names); ok {
			st, _ = FindPreset(name)
		}
	}
	st.Name, st.Title = "", ""
	st.read(top)
	return st, doc.Err()
}

// read lays the numbers of a file over st.
func (st *CameraSpec) read(top strict.Table) {
	number := func(key string, lo, hi float64, into func(float64)) {
		if v, ok := top.Get(key); ok {
			if x, ok := v.Number(lo, hi); ok {
				into(x)
			}
		}
	}
	number("turn", -float64(mostTurn), float64(mostTurn), func(x float64) { st.Turn = geom.Degrees(x) })
	number("tilt", -float64(mostTilt), float64(mostTilt), func(x float64) { st.Tilt = geom.Degrees(x) })
	number("lens", LeastLens, MostLens, func(x float64) { st.Lens, st.Distance, st.DistanceMM = geom.MM(x), 0, 0 })
	if v, ok := top.Get("eye"); ok {
		st.Eye, st.EyeMM = reach(v)
	}
	if v, ok := top.Get("distance"); ok {
		if _, both := top.Get("lens"); both {
			v.Problem("a lens says where to stand, and so does a distance; want one of both")
		}
		st.Distance, st.DistanceMM = reach(v)
	}
}

// reach reads a length above nothing: wheels, or millimetres on the vehicle.
func reach(v strict.Value) (geom.Wheels, geom.MM) {
	text, ok := v.Scalar()
	l, err := segments.ParseLength(text)
	switch {
	case !ok:
		v.Want("a length like 1600mm or 0.6w")
	case err != nil:
		v.Problem("%v", err)
	case !(l.Value > 0 && !math.IsInf(l.Value, 0)):
		v.Want("more than 0")
	case l.Unit == "w":
		return geom.Wheels(l.Value), 0
	default:
		return 0, l.MM(0)
	}
	return 0, 0
}
