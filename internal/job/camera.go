package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// usualCamera is the one that a perspective is taken by unless told otherwise.
const usualCamera = "front-quarter"

// viewSettings choose from where the vehicle is drawn.
func viewSettings() []Setting {
	angle := choice(func(s *request.Setting) *request.Projection { return &s.Angle }, request.FirstAngle, request.ThirdAngle)
	angle.Name, angle.Default = "angle", string(request.ThirdAngle)
	angle.Help = "how an arrangement's views lie round the side, a `PROJECTION`: first or third"
	angle.used = inViews(request.ArrangementView)
	return []Setting{
		{Name: "view", Default: string(request.SideView), List: true, Words: names(request.Views()),
			Help: "`VIEWS`, comma-separated: " + join(request.Views()) + " (front and rear together share a sheet)",
			parse: func(j *Job, words []string) error {
				views, err := listOf(words, request.Views())
				if j.Setting.Views = views; slices.Equal(views, []request.View{request.SideView}) {
					j.Setting.Views = nil
				}
				return err
			},
			write: func(_ *writer, j Job) string {
				if j.Setting.SideOnly() {
					return ""
				}
				return yamlList(j.Setting.Views)
			},
		},
		angle,
		{Name: "camera", Default: usualCamera, Words: cameraNames(), used: hasCamera,
			Help:  "`CAMERA` of a perspective: " + strings.Join(cameraNames(), " ") + ", or a file of your own (kind: camera)",
			parse: single(parseCamera),
			write: func(_ *writer, j Job) string { return basis(j).Name },
		},
	}
}

// cameraSettings change single quantities of a camera.
func cameraSettings() []Setting {
	spec := func(j *Job) *view.CameraSpec { return &j.Setting.Camera.Spec }
	lens := func(j *Job, word string) error {
		mm, err := numberWithin(word, float64(view.LeastLens), float64(view.MostLens))
		spec(j).Lens, spec(j).Distance, spec(j).DistanceMM = geom.MM(mm), 0, 0
		return err
	}
	turn := degrees("turn", fmt.Sprintf("`DEGREES` from square on the side, towards the nose, −%g to %[1]g, instead of the camera's own", view.MostTurn),
		view.MostTurn, func(s *view.CameraSpec) *geom.Degrees { return &s.Turn })
	turn.used = hasTurn
	return []Setting{
		turn,
		reach("eye", "`HEIGHT` of the eye over the ground, like 1600mm or 0.6w",
			func(s *view.CameraSpec) (*geom.Wheels, *geom.MM) { return &s.Eye, &s.EyeMM }),
		reach("distance", "how far the eye stands from the vehicle's middle, a `LENGTH` like 8m or 11w (instead of --lens)",
			func(s *view.CameraSpec) (*geom.Wheels, *geom.MM) { return &s.Distance, &s.DistanceMM }),
		{Name: "lens", used: hasCamera, parse: single(lens),
			Help: fmt.Sprintf("`MM` of a lens on 35 mm film, %g to %g: stand where the vehicle fills four fifths of the picture", view.LeastLens, view.MostLens),
			write: func(_ *writer, j Job) string {
				s := j.Setting.Camera.Spec
				if s.Distance != 0 || s.DistanceMM != 0 || s.Lens == basis(j).Lens {
					return ""
				}
				return inFull(float64(s.Lens))
			},
		},
		degrees("tilt", fmt.Sprintf("`DEGREES` that the camera looks down, −%g to %[1]g; 0 keeps uprights upright", view.MostTilt),
			view.MostTilt, func(s *view.CameraSpec) *geom.Degrees { return &s.Tilt }),
		{Name: "near-wheel", used: hasNearWheel, parse: single(parseNearWheel),
			Help: "how tall the nearest wheel stands on paper, a `LENGTH` like 60mm (as large as fits)",
			write: func(_ *writer, j Job) string {
				if j.Setting.Camera.NearWheel == 0 {
					return ""
				}
				return inFull(float64(j.Setting.Camera.NearWheel)) + "mm"
			},
		},
	}
}

// degrees is a setting that is an angle of a camera.
func degrees(name, help string, most geom.Degrees, at func(*view.CameraSpec) *geom.Degrees) Setting {
	return Setting{Name: name, Help: help, used: hasCamera,
		parse: single(func(j *Job, word string) error {
			v, err := numberWithin(word, -float64(most), float64(most))
			*at(&j.Setting.Camera.Spec) = geom.Degrees(v)
			return err
		}),
		write: func(_ *writer, j Job) string {
			own, from := j.Setting.Camera.Spec, basis(j)
			if *at(&own) == *at(&from) {
				return ""
			}
			return inFull(float64(*at(&own)))
		},
	}
}

// reach is a setting that is a length of a camera, in wheels or on the vehicle.
func reach(name, help string, at func(*view.CameraSpec) (*geom.Wheels, *geom.MM)) Setting {
	return Setting{Name: name, Help: help, used: hasCamera,
		parse: single(func(j *Job, word string) (err error) {
			w, mm := at(&j.Setting.Camera.Spec)
			*w, *mm, err = parseReach(word)
			return err
		}),
		write: func(_ *writer, j Job) string {
			own, from := j.Setting.Camera.Spec, basis(j)
			w, mm := at(&own)
			if usual, usualMM := at(&from); *w == *usual && *mm == *usualMM {
				return ""
			}
			if *w != 0 {
				return inFull(float64(*w)) + "w"
			}
			return inFull(float64(*mm)) + "mm"
		},
	}
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
	spec, ok := view.FindPreset(word)
	switch {
	case ok:
	case segments.IsName(word):
		return errors.New(strict.Unknown("camera", word, cameraNames()) + " (or the path of a camera's file)")
	default:
		j.Files = append(j.Files, word)
		if spec, err = loadCamera(word); err != nil {
			return fileError{err}
		}
	}
	j.Setting.Camera.Spec = spec
	return nil
}

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
	own := []string{"turn", "eye", "distance", "lens", "tilt"}
	top := doc.Top().Table("key", append([]string{"kind", "extends"}, own...))
	var j Job
	j.Setting.Camera.Spec, _ = view.FindPreset(usualCamera)
	if preset, ok := view.FindPreset(top.Choice("extends", "camera", cameraNames())); ok {
		j.Setting.Camera.Spec = preset
	}
	j.Setting.Camera.Spec.Name, j.Setting.Camera.Spec.Title = "", ""
	var r Reader
	r.table(top, "", inFile)
	r.parse(&j, r.files, cameraSettings())
	return j.Setting.Camera.Spec, doc.Err()
}

// cameraNames lists the cameras that come with the program.
func cameraNames() []string {
	var out []string
	for _, s := range view.Presets() {
		out = append(out, s.Name)
	}
	return out
}

// parseReach reads a length above nothing: wheels, or millimetres on the vehicle.
func parseReach(word string) (geom.Wheels, geom.MM, error) {
	l, err := segments.ParseLength(word)
	switch {
	case err != nil:
		return 0, 0, err
	case l.Value <= 0:
		return 0, 0, fmt.Errorf("%s; want more than 0", strict.Excerpt(word))
	case l.Unit == "w":
		return geom.Wheels(l.Value), 0, nil
	}
	return 0, l.MM(0), nil
}

// parseNearWheel reads a wheel on paper.
func parseNearWheel(j *Job, word string) error {
	w, mm, err := parseReach(word)
	if err == nil && (w != 0 || mm < 5 || mm > 1000) {
		err = fmt.Errorf("%s; want 5mm to 1000mm on paper", strict.Excerpt(word))
	}
	j.Setting.Camera.NearWheel = mm
	return err
}
