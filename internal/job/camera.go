package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/internal/slice"
	"hubrule/layout/view"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// usualCamera is the preset that takes a perspective unless another is chosen.
const usualCamera = "front-quarter"

// viewSettings choose from where the vehicle is drawn.
func viewSettings() []Setting {
	views := list(Setting{Name: "view", Default: "side", chooses: true,
		Help: "`VIEWS`, comma-separated: %s (front and rear together share a sheet)"},
		func(j *Job) *[]request.View { return &j.Setting.Views }, request.Views())
	views.parse = func(j *Job, words []string) (err error) {
		if j.Setting.Views, err = listOf(words, request.Views()); j.Setting.SideOnly() {
			j.Setting.Views = nil
		}
		return err
	}
	angle := choice(Setting{Name: "angle", Default: "third",
		Help: "how an arrangement's views lie round the side, a `PROJECTION`: first or third"},
		func(j *Job) *request.Projection { return &j.Setting.Angle }, request.FirstAngle, request.ThirdAngle)
	angle.used = func(v request.View) kinds {
		if v == request.ArrangementView {
			return anyKind()
		}
		return nil
	}
	return []Setting{views, angle}
}

func spec(j *Job) *view.CameraSpec { return &j.Setting.Camera.Spec }

// cameraSettings choose a camera, and change single quantities of it. What the camera has by itself is not written.
func cameraSettings() []Setting {
	camera := sheets(nil, nil, anyKind(), anyKind())
	lens := number(Setting{Name: "lens", used: camera,
		Help: fmt.Sprintf("`MM` of a lens on 35 mm film, %g to %g: stand where the vehicle fills four fifths of the picture",
			view.LeastLens, view.MostLens)},
		func(j *Job) *geom.MM { return &spec(j).Lens }, view.LeastLens, view.MostLens)
	parse := lens.parse
	lens.parse = func(j *Job, words []string) error {
		spec(j).Distance, spec(j).DistanceMM = 0, 0 // the lens chooses it
		return parse(j, words)
	}
	lens.write = func(_ *writer, j Job) string {
		if spec(&j).Distance != 0 || spec(&j).DistanceMM != 0 {
			return ""
		}
		return inFull(spec(&j).Lens)
	}
	rows := []Setting{
		number(Setting{Name: "turn", used: sheets(nil, nil, anyKind(), nil), // the ellipses go through all turns
			Help: fmt.Sprintf("`DEGREES` from square on the side, towards the nose, −%g to %[1]g, instead of the camera's own",
				view.MostTurn)},
			func(j *Job) *geom.Degrees { return &spec(j).Turn }, -view.MostTurn, view.MostTurn),
		reach(Setting{Name: "eye", used: camera, Help: "`HEIGHT` of the eye over the ground, like 1600mm or 0.6w",
			Bounds: []strict.Bounds{{Lo: float64(view.LeastEye), Hi: 1000, Unit: "w"}, {Lo: 20, Hi: 700_000, Unit: "mm"}}},
			func(s *view.CameraSpec) (*geom.Wheels, *geom.MM) { return &s.Eye, &s.EyeMM }),
		reach(Setting{Name: "distance", used: camera,
			Help:   "how far the eye stands from the vehicle's middle, a `LENGTH` like 8m or 11w (instead of --lens)",
			Bounds: []strict.Bounds{{Lo: .1, Hi: 10_000, Unit: "w"}, {Lo: 100, Hi: 7_000_000, Unit: "mm"}}},
			func(s *view.CameraSpec) (*geom.Wheels, *geom.MM) { return &s.Distance, &s.DistanceMM }),
		lens,
		number(Setting{Name: "tilt", used: camera,
			Help: fmt.Sprintf("`DEGREES` that the camera looks down, −%g to %[1]g; 0 keeps uprights upright", view.MostTilt)},
			func(j *Job) *geom.Degrees { return &spec(j).Tilt }, -view.MostTilt, view.MostTilt),
	}
	for i, write := range rows {
		rows[i].write = func(w *writer, j Job) string {
			plain := j
			plain.Setting.Camera.Spec = basis(j)
			if text := write.write(w, j); text != write.write(w, plain) {
				return text
			}
			return ""
		}
	}
	return rows
}

// perspectiveSettings choose a camera and how large its picture is; the rows between them change the camera.
func perspectiveSettings() []Setting {
	nearWheel := strict.Bounds{Lo: 5, Hi: 1000, Unit: "mm"}
	return slices.Concat([]Setting{{Name: "camera", Default: usualCamera, Words: cameraNames(), used: sheets(nil, nil, anyKind(),
		anyKind()),
		Help:  "`CAMERA` of a perspective: " + strings.Join(cameraNames(), " ") + ", or a file of your own (kind: camera)",
		parse: single(parseCamera),
		write: func(_ *writer, j Job) string { return basis(j).Name },
	}}, cameraSettings(), []Setting{one(Setting{Name: "near-wheel",
		used:   sheets(nil, nil, kinds{request.Full, request.Trace, request.Practice, request.Answer}, nil),
		Bounds: []strict.Bounds{nearWheel},
		Help:   "how tall the nearest wheel stands on paper, a `LENGTH` like 60mm (as large as fits)"},
		func(j *Job) *geom.MM { return &j.Setting.Camera.NearWheel },
		func(word string) (geom.MM, error) { return parseOnPaper(word, nearWheel) }, func(l geom.MM) string {
			if l == 0 {
				return ""
			}
			return inFull(l) + "mm"
		})})
}

// reach completes a row for a length of a camera, in wheels or on the vehicle. No vehicle's wheel makes one of its bounds much narrower
// than the other: beyond them every picture is a parallel one, or every number too small to draw.
func reach(s Setting, at func(*view.CameraSpec) (*geom.Wheels, *geom.MM)) Setting {
	s.parse = single(func(j *Job, word string) (err error) {
		w, mm := at(spec(j))
		*w, *mm, err = parseReach(word, s.Bounds[0], s.Bounds[1])
		return err
	})
	s.write = func(_ *writer, j Job) string {
		w, mm := at(spec(&j))
		if *w == 0 {
			return inFull(*mm) + "mm"
		}
		return inFull(*w) + "w"
	}
	return s
}

// basis returns the preset that a job's camera is written from.
func basis(j Job) view.CameraSpec {
	if preset, ok := view.FindPreset(j.Setting.Camera.Spec.Name); ok {
		return preset
	}
	usual, _ := view.FindPreset(usualCamera)
	return usual
}

// parseCamera finds a camera by its name or reads its file.
func parseCamera(j *Job, word string) (err error) {
	spec, ok := view.FindPreset(strings.ToLower(word))
	switch {
	case ok:
	case segments.IsName(word):
		return errors.New(strict.Unknown("camera", word, cameraNames()) + " (or the path of a camera's file)")
	default:
		j.Files = append(j.Files, word)
		spec, err = segments.ReadOnce(j.files, word, func(path string) (view.CameraSpec, error) { return loadCamera(j.files, path) })
		if err != nil {
			return fileError{word, err}
		}
	}
	j.Setting.Camera.Spec = spec
	return nil
}

// loadCamera reads a camera's file: kind: camera, extends: one of the presets (the usual camera where it names none), and what differs
// from it. What is wrong inside the file comes back as a *strict.Problems.
func loadCamera(files *segments.Files, path string) (view.CameraSpec, error) {
	doc, err := library(files).Load(path)
	if err != nil {
		return view.CameraSpec{}, err
	}
	return readCamera(doc)
}

func readCamera(doc *strict.Document) (view.CameraSpec, error) {
	if !doc.Is("camera", "kind: camera") {
		return view.CameraSpec{}, doc.Err()
	}
	own := []string{"turn", "eye", "distance", "lens", "tilt"}
	top := doc.Top().Table("key", append([]string{"kind", "extends"}, own...))
	var j Job
	j.Setting.Camera.Spec, _ = view.FindPreset(usualCamera)
	if preset, ok := view.FindPreset(top.Choice("extends", "camera", cameraNames())); ok {
		j.Setting.Camera.Spec = preset
	}
	j.Setting.Camera.Spec.Name, j.Setting.Camera.Spec.Title = "", ""
	var r Reader
	r.parse(&j, r.table(top, "", inFile), cameraSettings())
	return j.Setting.Camera.Spec, doc.Err()
}

// cameraNames lists the cameras that come with the program.
func cameraNames() []string {
	return slice.Map(view.Presets(), func(s view.CameraSpec) string { return s.Name })
}

// parseReach reads a length within its bounds: wheels, or millimetres on the vehicle.
func parseReach(word string, inWheels, inMM strict.Bounds) (geom.Wheels, geom.MM, error) {
	l, err := segments.ParseLength(word)
	switch {
	case err != nil:
		return 0, 0, err
	case l.Unit == "w" && inWheels.Contain(l.Value):
		return geom.Wheels(l.Value), 0, nil
	case l.Unit == "w" || !inMM.Contain(float64(l.MM(0))):
		return 0, 0, fmt.Errorf("%s; want %s, or %s", strict.Excerpt(word), inWheels, inMM)
	}
	return 0, l.MM(0), nil
}

// parseOnPaper reads a length on paper within its bounds.
func parseOnPaper(word string, b strict.Bounds) (geom.MM, error) {
	l, err := segments.ParseLength(word)
	if err == nil && l.Unit != "w" && b.Contain(float64(l.MM(0))) {
		return l.MM(0), nil
	}
	hint := strict.NumberHint(word)
	if _, plain := strict.ParseNumber(word); plain {
		hint = ": the unit is missing"
	}
	return 0, fmt.Errorf("%s; want a length in mm, cm or in, %s on paper%s", strict.Excerpt(word), b, hint)
}
