package counting

import (
	"fmt"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/request"
	"hubrule/segments"
	"slices"
)

// unit is how lengths are written.
type unit struct {
	name     string // for readers of a sheet
	suffix   string
	mm       float64 // on the vehicle; 0: the unit is the wheel
	decimals int
}

// unitOf returns the unit of lengths.
func unitOf(u request.Units) unit {
	switch u {
	case request.Wheels:
		return unit{"wheels", " wheels", 0, 2}
	case request.Millimetres:
		return unit{"mm on the vehicle", " mm", 1, 0}
	case request.Inches:
		return unit{"inches on the vehicle", " in", float64(geom.Inch), 1}
	}
	panic("counting: no units " + string(u))
}

// UnitName names the unit of lengths for readers of a sheet.
func UnitName(u request.Units) string { return unitOf(u).name }

// format prints a length of a plan without its unit.
func (u unit) format(p layout.Plan, w geom.Wheels) string {
	if u.mm == 0 {
		return draft.FormatFixed(float64(w), u.decimals)
	}
	return draft.FormatFixed(float64(p.OnVehicle(w))/u.mm, u.decimals)
}

// FormatLength prints a length of the plan in the units of the sheet, which the title block names.
func (d *Drawing) FormatLength(w geom.Wheels) string { return unitOf(d.Units).format(d.Plan, w) }

// formatDiameter prints one wheel: 1 in wheels, its diameter otherwise.
func (d *Drawing) formatDiameter(w geom.Wheels) string {
	if d.Units == request.Wheels {
		return draft.FormatCount(float64(w))
	}
	return d.FormatLength(w)
}

// FormatSecondary prints a length in the unit that the sheet does not use, with its name.
func (d *Drawing) FormatSecondary(w geom.Wheels) string {
	other := unitOf(request.Wheels)
	if d.Units == request.Wheels {
		other = unitOf(request.Millimetres)
	}
	return other.format(d.Plan, w) + other.suffix
}

// Facts lists the columns of the title block, the most needed first.
func Facts(p layout.Plan, wheel geom.MM, units request.Units) [][]draft.Fact {
	tyre, diameter := p.Profile.Wheel.String(), fmt.Sprintf("%.0f mm", float64(p.OnVehicle(1)))
	sizes := draft.Fact{Name: "wheel", Value: diameter}
	if p.TyreRatio() != 1 {
		tyre += ", rear " + p.Profile.RearWheel.String()
		sizes.Value += fmt.Sprintf(", rear %.0f mm", float64(p.OnVehicle(2*p.RearRadius())))
	}
	columns := [][]draft.Fact{
		{WheelFact(wheel), {Name: "scale",
			Value: draft.FormatScale(float64(p.OnVehicle(1) / wheel))}},
		{{Name: "tyre", Value: tyre}, sizes},
		{{Name: "height", Value: FormatOnVehicle(p, p.Height(), units)}, {Name: "length", Value: FormatOnVehicle(p, p.Length(), units)}},
		UnitFacts(units, p),
	}
	return columns
}

// WheelFact is the size of a wheel on paper.
func WheelFact(wheel geom.MM) draft.Fact {
	return draft.Fact{Name: "wheel on paper", Value: draft.FormatMM(wheel)}
}

// UnitFacts name the unit of a sheet: where that is the wheel, of counts and lengths alike.
func UnitFacts(units request.Units, plans ...layout.Plan) []draft.Fact {
	wheel := "wheel"
	if slices.ContainsFunc(plans, func(p layout.Plan) bool { return p.TyreRatio() != 1 }) {
		wheel = "front wheel"
	}
	if units == request.Wheels {
		return []draft.Fact{{Name: draft.Unit, Value: wheel}}
	}
	return []draft.Fact{{Name: draft.Unit, Value: UnitName(units)}, {Name: "counts in", Value: wheel + "s"}}
}

// WithoutAnswers drops the facts that give an answer away: height and length.
func WithoutAnswers(columns [][]draft.Fact) [][]draft.Fact {
	return slices.DeleteFunc(columns, func(c []draft.Fact) bool { return c[0].Name == "height" })
}

// FormatOnVehicle prints a length on the vehicle.
func FormatOnVehicle(p layout.Plan, w geom.Wheels, units request.Units) string {
	u := unitOf(units)
	if u.mm == 0 {
		u = unitOf(request.Millimetres)
	}
	return u.format(p, w) + u.suffix
}

// FormatWithUnit prints a length with its unit.
func (d *Drawing) FormatWithUnit(w geom.Wheels) string {
	if d.Units == request.Wheels && w <= 1 {
		return d.FormatLength(w) + " of a wheel"
	}
	return d.FormatLength(w) + unitOf(d.Units).suffix
}

// WidthOf and tumblehomeOf are the two figures across the vehicle that a plan only keeps among its values.
func WidthOf(p layout.Plan) geom.Wheels       { return geom.Wheels(p.Value(segments.Width)) }
func TumblehomeOf(p layout.Plan) geom.Degrees { return geom.Degrees(p.Value(segments.Tumblehome)) }
