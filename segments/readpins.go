package segments

import (
	"slices"

	"hubrule/segments/strict"
)

func (r *briefReader) pins() {
	var at []strict.Value
	for f, field := range readFigureTable(r.top.At("pin"), r.brief.CannotPin) {
		parse := func(text string) (Pin, error) { return ParsePin(f, text) }
		if p, ok := parseScalar(field.Value, "what "+f.String()+" is to be", parse); ok {
			p.Origin = Origin{Place: field.Value.Place(), InFile: true}
			r.brief.Pins, at = append(r.brief.Pins, p), append(at, field.Value)
		}
	}
	if r.brief.Profile == nil {
		return
	}
	wheel := r.brief.FittedProfile().Wheel.Diameter
	for i, p := range r.brief.Pins {
		if err := p.CheckBounds(wheel); err != nil {
			at[i].Problem("%v", err)
		}
	}
}

func (r *briefReader) keeps() {
	v, ok := r.top.Get("keep")
	if !ok {
		return
	}
	_, pins := r.top.Get("pin")
	if _, tweaks := r.top.Get("tweak"); !tweaks && !pins {
		v.Problem("a figure stays as it is without a tweak or a pin; want one of them")
		return
	}
	items := []strict.Value{v}
	if _, single := v.Scalar(); !single {
		items, _ = v.Items(1, int(FigureCount))
	}
	allowed := r.brief.Pinnable()
	for _, item := range items {
		name, ok := item.Choice("figure", allowed)
		f, _ := Lookup(name)
		if !ok {
			continue
		}
		switch _, pinned := r.brief.Pin(f); {
		case pinned:
			item.Problem("%s is already pinned; pin it or keep it, not both", f)
		case slices.ContainsFunc(r.brief.Keeps, func(k Keep) bool { return k.Figure == f }):
			item.Problem("%s stands twice; want it once", f)
		default:
			r.brief.Keeps = append(r.brief.Keeps, Keep{f, Origin{Place: item.Place(), InFile: true}})
		}
	}
}
