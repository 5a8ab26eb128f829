package main

import (
	"fmt"
	"strings"

	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// wheelsBefore are the wheels of full, trace and practice sheets on A3, then on A4, in mm, before words got narrower lanes and practice
// sheets none, in the order of segments.Names.
const wheelsBefore = `
city 44 54 44 26 36 24
hatchback 44 52 44 28 36 24
sedan-compact 44 50 44 26 34 24
sedan 42 50 42 26 34 24
sedan-large 42 48 42 26 34 24
estate 42 50 42 26 34 24
coupe 44 52 44 28 34 22
convertible 44 50 44 28 34 24
sports 46 54 46 28 38 28
mid-engine 46 54 46 28 36 28
crossover 46 56 46 28 38 24
suv 46 56 46 28 38 24
suv-large 46 54 46 28 36 24
off-roader 48 60 48 30 42 24
pickup 44 52 44 28 36 24
pickup-large 42 48 42 26 32 24
minivan 44 52 44 28 36 24
van 40 46 40 24 30 24`

// wheelTable is how large a wheel each sheet has, by itself, and had before.
func wheelTable() string {
	var b strings.Builder
	b.WriteString("| segment | A3 full | A3 trace | A3 practice | A4 full | A4 trace | A4 practice |\n|---|---|---|---|---|---|---|\n")
	for i, line := range strings.Split(strings.TrimSpace(wheelsBefore), "\n") {
		before, name := strings.Fields(line), segments.Names()[i]
		fmt.Fprintf(&b, "| `%s` |", name)
		for k, paper := range []string{"A3", "A4"} {
			for n, kind := range []request.Kind{request.Full, request.Trace, request.Practice} {
				fmt.Fprintf(&b, " %.0f (%s) |", wheelOf(name, paper, kind), before[1+3*k+n])
			}
		}
		b.WriteString("\n")
	}
	return b.String()
}

// wheelOf returns the wheel on paper, in mm, of a segment's sheet alone.
func wheelOf(segment, paper string, kind request.Kind) float64 {
	profile, err := segments.Find(segment)
	on, ok := request.FindPaper(paper)
	if err != nil || !ok {
		panic("gallery: no " + segment + " or " + paper)
	}
	return float64(sheet.Largest(request.Request{Plans: []layout.Plan{layout.Typical(profile)}, Kinds: []request.Kind{kind},
		Setting: request.Setting{Paper: on, Facing: request.Left, Labels: request.FullLabels, Units: request.Wheels}}, 0))
}
