package sheet

import (
	"slices"
	"strconv"

	"hubrule/internal/geom"
	"hubrule/layout/view"
	"hubrule/render/request"
)

// views writes from where the vehicle is drawn, where that is not just the side.
func (w *jobWriter) views(job driver) {
	s := job.Setting
	if slices.Equal(s.Seen(), []request.View{request.SideView}) {
		return
	}
	w.line("view", list(s.Views))
	w.only(slices.Contains(s.Views, request.ArrangementView) && s.Angle == request.FirstAngle, "angle", string(s.Angle))
	if slices.Contains(s.Views, request.PerspectiveView) || slices.Contains(s.Views, request.EllipsesView) {
		w.camera(s.Camera)
	}
}

// camera writes a camera as a preset and what differs from it.
func (w *jobWriter) camera(c request.Camera) {
	usual := view.Presets()[0]
	st, from := c.Spec, usual
	if preset, ok := view.FindPreset(st.Name); ok {
		from = preset
	}
	w.only(from.Name != usual.Name, "camera", from.Name)
	w.only(st.Turn != from.Turn, "turn", inFull(float64(st.Turn)))
	w.only(st.Eye != from.Eye || st.EyeMM != from.EyeMM, "eye", reachOnVehicle(st.Eye, st.EyeMM))
	if st.Distance != 0 || st.DistanceMM != 0 {
		w.line("distance", reachOnVehicle(st.Distance, st.DistanceMM))
	} else {
		w.only(st.Lens != from.Lens, "lens", digits(st.Lens))
	}
	w.only(st.Tilt != from.Tilt, "tilt", inFull(float64(st.Tilt)))
	w.only(c.NearWheel > 0, "near-wheel", digits(c.NearWheel)+"mm")
}

// reachOnVehicle writes a length that stands in wheels or in millimetres.
func reachOnVehicle(w geom.Wheels, mm geom.MM) string {
	if w != 0 {
		return inFull(float64(w)) + "w"
	}
	return digits(mm) + "mm"
}

func inFull(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
