package cli

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// cameraFlags are the flags about the sides that a vehicle is drawn from, as written.
type cameraFlags struct {
	views                                                []string
	angle, camera, turn, eye, distance, lens, tilt, near string
	inFile                                               error // what is wrong in the camera's file
}

// usualCamera is the one that a perspective is taken by unless told otherwise.
const usualCamera = "front-quarter"

// cameraKeys are the flags that change a camera.
func cameraKeys() []string {
	return []string{"camera", "turn", "eye", "distance", "lens", "tilt", "near-wheel"}
}

func (s *cameraFlags) register(c *cobra.Command) {
	f := c.Flags()
	f.StringArrayVar(&s.views, "view", []string{string(request.SideView)}, "`VIEWS`, comma-separated: "+join(request.Views())+" (front and rear together share a sheet)")
	f.StringVar(&s.angle, "angle", string(request.ThirdAngle), "how an arrangement's views lie round the side, a `PROJECTION`: first or third")
	f.StringVar(&s.camera, "camera", usualCamera, "`CAMERA` of a perspective: "+join(cameraNames())+", or a file of your own (kind: camera)")
	f.StringVar(&s.turn, "turn", "", fmt.Sprintf("`DEGREES` from square on the side, towards the nose, −%g to %[1]g, instead of the camera's own", view.MostTurn))
	f.StringVar(&s.eye, "eye", "", "`HEIGHT` of the eye over the ground, like 1600mm or 0.6w")
	f.StringVar(&s.distance, "distance", "", "how far the eye stands from the vehicle's middle, a `LENGTH` like 8m or 11w (instead of --lens)")
	f.StringVar(&s.lens, "lens", "", fmt.Sprintf("`MM` of a lens on 35 mm film, %g to %g: stand where the vehicle fills four fifths of the picture", view.LeastLens, view.MostLens))
	f.StringVar(&s.tilt, "tilt", "", fmt.Sprintf("`DEGREES` that the camera looks down, −%g to %[1]g; 0 keeps uprights upright", view.MostTilt))
	f.StringVar(&s.near, "near-wheel", "", "how tall the nearest wheel stands on paper, a `LENGTH` like 60mm (as large as fits)")
	completeList(c, "view", names(request.Views())...)
	completeFlag(c, "angle", "first", "third")
	completeFlag(c, "camera", cameraNames()...)
}

// cameraNames lists the cameras that come with the program.
func cameraNames() []string {
	var out []string
	for _, s := range view.Presets() {
		out = append(out, s.Name)
	}
	return out
}

// read turns the flags into settings; what is wrong goes to check by its key.
func (s *cameraFlags) read(out *request.Setting, check func(key string, err error)) {
	views, err := listOf(s.views, request.Views()...)
	check("view", err)
	if err == nil && !(len(views) == 1 && views[0] == request.SideView) {
		out.Views = views
	}
	out.Angle, err = oneOf(s.angle, request.FirstAngle, request.ThirdAngle)
	check("angle", err)
	stand, err := s.stand()
	if err != nil && !segments.IsName(s.camera) { // the file stands in the way, not the command
		s.inFile, err = err, nil
	}
	check("camera", err)
	degrees := func(key, text string, most geom.Degrees, into *geom.Degrees) {
		if text != "" {
			v, err := parseWithin(text, -float64(most), float64(most))
			*into = geom.Degrees(v)
			check(key, err)
		}
	}
	degrees("turn", s.turn, view.MostTurn, &stand.Turn)
	degrees("tilt", s.tilt, view.MostTilt, &stand.Tilt)
	if s.lens != "" {
		mm, err := parseWithin(s.lens, float64(view.LeastLens), float64(view.MostLens))
		stand.Lens, stand.Distance, stand.DistanceMM = geom.MM(mm), 0, 0
		check("lens", err)
	}
	length := func(key, text string, w *geom.Wheels, mm *geom.MM) {
		if text != "" {
			*w, *mm, err = parseReach(text)
			check(key, err)
		}
	}
	length("eye", s.eye, &stand.Eye, &stand.EyeMM)
	length("distance", s.distance, &stand.Distance, &stand.DistanceMM)
	if s.lens != "" && s.distance != "" {
		check("distance", errors.New(lensAndDistance))
	}
	out.Camera.Spec = stand
	if s.near != "" {
		var w geom.Wheels
		if w, out.Camera.NearWheel, err = parseReach(s.near); err == nil && (w != 0 || out.Camera.NearWheel < 5 || out.Camera.NearWheel > 1000) {
			err = usagef("%s; want 5mm to 1000mm on paper", strict.Excerpt(s.near))
		}
		check("near-wheel", err)
	}
}

// stand finds the camera by its name or reads its file.
func (s *cameraFlags) stand() (view.CameraSpec, error) {
	if stand, ok := view.FindPreset(s.camera); ok {
		return stand, nil
	}
	if segments.IsName(s.camera) {
		return view.CameraSpec{}, usageError{strict.Unknown("camera", s.camera, cameraNames()) + " (or the path of a camera's file)"}
	}
	return loadCamera(s.camera)
}

// lensAndDistance says that two settings exclude each other.
const lensAndDistance = "a lens says where to stand, and so does a distance; want one of both"

// loadCamera reads a camera's file: kind: camera, extends: one of the presets (the usual camera where it names none), and what differs
// from it. What is wrong inside the file comes back as a *strict.Problems.
func loadCamera(path string) (view.CameraSpec, error) {
	doc, err := strict.Load(path)
	if err != nil {
		return view.CameraSpec{}, err
	}
	if v, ok := doc.Peek("kind"); !ok {
		doc.Top().Problem("no kind; want kind: camera")
		return view.CameraSpec{}, doc.Err()
	} else if _, ok := v.Choice("kind of file", []string{"camera"}); !ok {
		return view.CameraSpec{}, doc.Err()
	}
	top := doc.Top().Table("key", []string{"kind", "extends", "turn", "eye", "distance", "lens", "tilt"})
	preset := usualCamera
	if v, ok := top.Get("extends"); ok {
		if name, ok := v.Choice("camera", cameraNames()); ok {
			preset = name
		}
	}
	spec, _ := view.FindPreset(preset)
	spec.Name, spec.Title = "", ""
	overlayCamera(&spec, top)
	return spec, doc.Err()
}

// overlayCamera lays the numbers of a file over spec.
func overlayCamera(spec *view.CameraSpec, top strict.Table) {
	number := func(key string, lo, hi float64, into func(float64)) {
		if v, ok := top.Get(key); ok {
			if x, ok := v.Number(lo, hi); ok {
				into(x)
			}
		}
	}
	length := func(key string, w *geom.Wheels, mm *geom.MM) {
		v, ok := top.Get(key)
		if !ok {
			return
		}
		text, ok := v.Scalar()
		if !ok {
			v.Want("a length like 1600mm or 0.6w")
			return
		}
		var err error
		if *w, *mm, err = parseReach(text); err != nil {
			v.Problem("%v", err)
		}
	}
	number("turn", -float64(view.MostTurn), float64(view.MostTurn), func(x float64) { spec.Turn = geom.Degrees(x) })
	number("tilt", -float64(view.MostTilt), float64(view.MostTilt), func(x float64) { spec.Tilt = geom.Degrees(x) })
	number("lens", float64(view.LeastLens), float64(view.MostLens), func(x float64) {
		spec.Lens, spec.Distance, spec.DistanceMM = geom.MM(x), 0, 0
	})
	if v, both := top.Get("distance"); both {
		if _, both = top.Get("lens"); both {
			v.Problem(lensAndDistance)
		}
	}
	length("eye", &spec.Eye, &spec.EyeMM)
	length("distance", &spec.Distance, &spec.DistanceMM)
}

// parseWithin reads a number.
func parseWithin(text string, lo, hi float64) (float64, error) {
	v, ok := strict.ParseNumber(text)
	if !ok || v < lo || v > hi {
		return 0, usagef("%s; want %g to %g%s", strict.Excerpt(text), lo, hi, strict.NumberHint(text))
	}
	return v, nil
}

// parseReach reads a length above nothing: wheels, or millimetres on the vehicle.
func parseReach(text string) (geom.Wheels, geom.MM, error) {
	l, err := segments.ParseLength(text)
	switch {
	case err != nil:
		return 0, 0, usageError{err.Error()}
	case l.Value <= 0:
		return 0, 0, usagef("%s; want more than 0", strict.Excerpt(text))
	case l.Unit == "w":
		return geom.Wheels(l.Value), 0, nil
	}
	return 0, l.MM(0), nil
}

// checkCamera refuses flags about a camera where nothing is taken by one.
func (s *cameraFlags) checkCamera(views []request.View, is func(key string) bool) error {
	if key, why := s.strayCamera(views, is); key != "" {
		return usagef("--%s %s", key, why)
	}
	return nil
}

// strayCamera returns a setting about cameras that nothing in the views asks for, and what it goes with.
func (s *cameraFlags) strayCamera(views []request.View, is func(key string) bool) (key, why string) {
	taken := func(v request.View) bool { return slices.Contains(views, v) }
	if is("angle") && !taken(request.ArrangementView) {
		return "angle", "goes with --view arrangement"
	}
	for _, key := range cameraKeys() {
		if is(key) && !taken(request.PerspectiveView) && !(taken(request.EllipsesView) && key != "near-wheel") {
			return key, "goes with --view perspective" + map[bool]string{true: " or ellipses"}[key != "near-wheel"]
		}
	}
	return "", ""
}
