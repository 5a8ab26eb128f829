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

// FormatLength prints a length of the plan in the units of the sheet, which the strip names.
func (d *Drawing) FormatLength(w geom.Wheels) string {
	switch mm := d.Plan.OnVehicle(w); d.Units {
	case request.Wheels:
		return FormatWheels(w)
	case request.Millimetres:
		return draft.Fixed(float64(mm), 0)
	case request.Inches:
		return draft.Fixed(float64(mm)/25.4, 1)
	}
	panic("counting: no units " + string(d.Units))
}

// formatDiameter prints one wheel: 1 in wheels, its diameter otherwise.
func (d *Drawing) formatDiameter(w geom.Wheels) string {
	if d.Units == request.Wheels {
		return draft.FormatCount(float64(w))
	}
	return d.FormatLength(w)
}

// FormatSecondary prints a length in the unit that the sheet does not use, with its name.
func (d *Drawing) FormatSecondary(w geom.Wheels) string {
	if d.Units == request.Wheels {
		return draft.Fixed(float64(d.Plan.OnVehicle(w)), 0) + " mm"
	}
	return FormatWheels(w) + " wheels"
}

// Facts lists the columns of the strip, the most needed first.
func Facts(p layout.Plan, wheel geom.MM, units request.Units) [][]draft.Fact {
	tyre, diameter := p.Profile.Wheel.String(), fmt.Sprintf("%.0f mm", float64(p.OnVehicle(1)))
	sizes := draft.Fact{Name: "wheel", Value: diameter}
	if p.TyreRatio() != 1 {
		tyre += ", rear " + p.Profile.RearWheel.String()
		sizes.Value += fmt.Sprintf(", rear %.0f mm", float64(p.OnVehicle(2*p.RearRadius())))
	}
	columns := [][]draft.Fact{
		{{Name: "wheel on paper", Value: draft.FormatMM(wheel)}, {Name: "scale", Value: draft.FormatScale(float64(p.OnVehicle(1) / wheel))}},
		{{Name: "tyre", Value: tyre}, sizes},
		{{Name: "height", Value: FormatOnVehicle(p, p.Height(), units)}, {Name: "length", Value: FormatOnVehicle(p, p.Length(), units)}},
		{{Name: draft.LengthsIn, Value: UnitName(units)}, {Name: "counts in", Value: "wheels"}},
	}
	if p.TyreRatio() != 1 {
		columns[3][1].Value = "front wheels"
	}
	return columns
}

// WithoutAnswers drops the facts that give an answer away: height and length.
func WithoutAnswers(columns [][]draft.Fact) [][]draft.Fact {
	return slices.DeleteFunc(columns, func(c []draft.Fact) bool { return c[0].Name == "height" })
}

// FormatOnVehicle prints a length on the vehicle.
func FormatOnVehicle(p layout.Plan, w geom.Wheels, units request.Units) string {
	if units == request.Inches {
		return fmt.Sprintf("%.1f in", float64(p.OnVehicle(w))/25.4)
	}
	return fmt.Sprintf("%.0f mm", float64(p.OnVehicle(w)))
}

// UnitName names the unit of lengths for readers of a sheet.
func UnitName(u request.Units) string {
	switch u {
	case request.Wheels:
		return "wheels"
	case request.Millimetres:
		return "mm on the vehicle"
	case request.Inches:
		return "inches on the vehicle"
	}
	panic("counting: no units " + string(u))
}

// FormatWheels prints a length in wheels as sheets do: two decimals.
func FormatWheels(w geom.Wheels) string { return draft.Fixed(float64(w), 2) }

// FormatWithUnit prints a length with its unit.
func (d *Drawing) FormatWithUnit(w geom.Wheels) string {
	switch d.Units {
	case request.Wheels:
		if w > 1 {
			return d.FormatLength(w) + " wheels"
		}
		return d.FormatLength(w) + " of a wheel"
	case request.Millimetres:
		return d.FormatLength(w) + " mm"
	}
	return d.FormatLength(w) + " in"
}

// WidthOf and tumblehomeOf are the two figures across the vehicle that a plan only keeps among its values.
func WidthOf(p layout.Plan) geom.Wheels       { return geom.Wheels(p.Value(segments.Width)) }
func TumblehomeOf(p layout.Plan) geom.Degrees { return geom.Degrees(p.Value(segments.Tumblehome)) }
