package sheet

import (
	"fmt"
	"hubrule/internal/geom"
	"hubrule/layout"
	"hubrule/render/draft"
	"hubrule/render/request"
	"slices"
)

// length prints a length of the plan in the units of the sheet, which the strip names.
func (d *drawing) length(w geom.Wheels) string {
	switch mm := d.plan.OnVehicle(w); d.units {
	case request.Wheels:
		return inWheels(w)
	case request.Millimetres:
		return draft.Fixed(float64(mm), 0)
	case request.Inches:
		return draft.Fixed(float64(mm)/25.4, 1)
	}
	panic("sheet: no units " + string(d.units))
}

// wheelCount prints one wheel: 1 in wheels, its diameter otherwise.
func (d *drawing) wheelCount(w geom.Wheels) string {
	if d.units == request.Wheels {
		return draft.CountOf(float64(w))
	}
	return d.length(w)
}

// otherwise prints a length in the unit that the sheet does not use, with its name.
func (d *drawing) otherwise(w geom.Wheels) string {
	if d.units == request.Wheels {
		return draft.Fixed(float64(d.plan.OnVehicle(w)), 0) + " mm"
	}
	return inWheels(w) + " wheels"
}

// facts lists the columns of the strip, the most needed first.
func facts(p layout.Plan, wheel geom.MM, units request.Units) [][]draft.Fact {
	tyre, diameter := p.Profile.Wheel.String(), fmt.Sprintf("%.0f mm", float64(p.OnVehicle(1)))
	sizes := draft.Fact{Name: "wheel", Value: diameter}
	if p.TyreRatio() != 1 {
		tyre += ", rear " + p.Profile.RearWheel.String()
		sizes.Value += fmt.Sprintf(", rear %.0f mm", float64(p.OnVehicle(2*p.RearRadius())))
	}
	columns := [][]draft.Fact{
		{{Name: "wheel on paper", Value: draft.OnPaper(wheel)}, {Name: "scale", Value: draft.Reduction(float64(p.OnVehicle(1) / wheel))}},
		{{Name: "tyre", Value: tyre}, sizes},
		{{Name: "height", Value: real(p, p.Height(), units)}, {Name: "length", Value: real(p, p.Length(), units)}},
		{{Name: draft.LengthsIn, Value: unitName(units)}, {Name: "counts in", Value: "wheels"}},
	}
	if p.TyreRatio() != 1 {
		columns[3][1].Value = "front wheels"
	}
	return columns
}

// unsolved drops the facts that give an answer away: height and length.
func unsolved(columns [][]draft.Fact) [][]draft.Fact {
	return slices.DeleteFunc(columns, func(c []draft.Fact) bool { return c[0].Name == "height" })
}

// real prints a length on the vehicle.
func real(p layout.Plan, w geom.Wheels, units request.Units) string {
	if units == request.Inches {
		return fmt.Sprintf("%.1f in", float64(p.OnVehicle(w))/25.4)
	}
	return fmt.Sprintf("%.0f mm", float64(p.OnVehicle(w)))
}

func unitName(u request.Units) string {
	switch u {
	case request.Wheels:
		return "wheels"
	case request.Millimetres:
		return "mm on the vehicle"
	case request.Inches:
		return "inches on the vehicle"
	}
	panic("sheet: no units " + string(u))
}

// inWheels prints a length in wheels as sheets do: two decimals.
func inWheels(w geom.Wheels) string { return draft.Fixed(float64(w), 2) }

// amount prints a length with its unit.
func (d *drawing) amount(w geom.Wheels) string {
	switch d.units {
	case request.Wheels:
		if w > 1 {
			return d.length(w) + " wheels"
		}
		return d.length(w) + " of a wheel"
	case request.Millimetres:
		return d.length(w) + " mm"
	}
	return d.length(w) + " in"
}
