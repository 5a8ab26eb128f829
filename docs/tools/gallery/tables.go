package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"hubrule/internal/cli"
	"hubrule/layout"
	"hubrule/render/request"
	"hubrule/segments"
	"hubrule/segments/strict"
)

// table is a part of a text that is written by this tool, between two comments.
type table struct{ file, name, text string }

// tables lists the generated parts of the docs.
func tables() []table {
	return []table{
		{"docs/figures.md", "figures", figureTable()},
		{"docs/marks.md", "marks", markTable()},
		{"docs/segments.md", "segments", segmentTable()},
		{"docs/segments.md", "wheels on paper", wheelTable()},
		{"docs/solve.md", "figures of a brief", printed("figures", "suv", "--tweak", "sporty=0.8", "--pin", "length=4600mm")},
		{"docs/solve.md", "a clash", printed("figures", "suv", "--pin", "height=1.5w", "--pin", "belt=1.6w")},
	}
}

// printed is what the program answers to a command, as a block of text.
func printed(args ...string) string {
	var out bytes.Buffer
	cli.Main(args, strings.NewReader(""), &out, &out)
	return "```\n$ hubrule " + strings.Join(args, " ") + "\n" + out.String() + "```\n"
}

// fresh returns the text of the file with the table as it has to be.
func (t table) fresh(old string) (string, error) {
	begin, end := fmt.Sprintf("<!-- %s: written by make docs -->\n", t.name), fmt.Sprintf("<!-- end of %s -->\n", t.name)
	before, rest, ok := strings.Cut(old, begin)
	_, after, closed := strings.Cut(rest, end)
	if !ok || !closed {
		return "", fmt.Errorf("%s: want the lines %q and %q round its table", t.file, begin, end)
	}
	return before + begin + "\n" + t.text + "\n" + end + after, nil
}

// refresh writes the table into its file under root.
func (t table) refresh(root string) error {
	path := filepath.Join(root, t.file)
	old, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	text, err := t.fresh(string(old))
	if err != nil {
		return err
	}
	return os.WriteFile(path, []byte(text), 0o666)
}

// figureTable is what the program knows of every figure.
func figureTable() string {
	var b strings.Builder
	b.WriteString("| figure | role | unit | refused outside | meaning |\n|---|---|---|---|---|\n")
	for f := range segments.FigureCount {
		a := f.Info()
		unit, bounds := string(a.Unit), strict.FormatNumber(a.Lo)+" to "+strict.FormatNumber(a.Hi)
		if a.Unit == segments.AsWord {
			unit, bounds = "word", "the six forms"
		}
		if a.Role == segments.Derived {
			bounds = ""
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s |\n", a.Name, role(a.Role), unit, bounds, a.Meaning)
	}
	return b.String()
}

func role(r segments.Role) string {
	switch r {
	case segments.Given:
		return "given"
	case segments.Declared:
		return "declared"
	case segments.Derived:
		return "derived"
	}
	panic(fmt.Sprintf("gallery: no role %d", r))
}

// segmentTable is the catalogue, with the counts a sketcher starts from.
func segmentTable() string {
	var b strings.Builder
	b.WriteString("| segment | form | tyre | wheels between | wheels high | what it is | also called |\n|---|---|---|---|---|---|---|\n")
	for _, name := range segments.Names() {
		profile, err := segments.Find(name)
		if err != nil {
			panic("gallery: " + err.Error()) // the catalogue is part of the program
		}
		p := layout.Typical(profile)
		fmt.Fprintf(&b, "| [`%s`](gallery/%[1]s-full.svg) | %s | %s | %.2f | %.2f | %s | %s |\n",
			name, profile.Form, profile.Wheel, p.WheelsBetween(), p.Height(), profile.Summary, strings.Join(profile.Aliases, ", "))
	}
	return b.String()
}

// index is the gallery's own page.
func index() string {
	var b strings.Builder
	b.WriteString("# Gallery\n\nDrawn by `make docs` with the program itself; nothing here is touched up.\n" +
		"The pictures are the sheets as SVG files, at their true size on paper.\n\n" +
		"## All segments at one wheel\n\n![outlines of all segments](segments.svg)\n\n" +
		"## The segments as solids\n\n![all segments from two quarters](quarters.png)\n\n" +
		"![all segments from the front and the rear](faces.png)\n\n" +
		"Before noses, tails, lamps and screens had families of their own (no longer drawn by the program):\n\n" +
		"![outlines before](before/segments.png)\n\n![quarters before](before/quarters.png)\n\n" +
		"![faces before](before/faces.png)\n\n## What the flags do\n")
	for _, p := range examples() {
		fmt.Fprintf(&b, "\n`%s`\n\n![%s](%s)\n", p.command(), strings.TrimSuffix(p.shown(), ".svg"), p.shown())
	}
	b.WriteString("\n## Every kind, view and paper\n\n" +
		"On A3 the kinds of sheet and the views, then the full sheet on the other papers, each as large as its place.\n")
	for _, name := range kindsOf {
		fmt.Fprintf(&b, "\n![all sheets of %[1]s](%[1]s-kinds.png)\n", name)
	}
	b.WriteString("\n## From pictures\n\nThe Tarnholt school of form, its vehicles and its students are invented; `docs/tools/school` paints them.\n")
	for _, r := range readings {
		fmt.Fprintf(&b, "\n`hubrule %s -o %s`\n\n![%s](%[2]s)\n", r.command, r.file, strings.TrimSuffix(r.file, ".png"))
	}
	b.WriteString("\n## To draw over\n\nThe trace sheet of every other segment is drawn beside this one by `make docs`.\n")
	traces, fulls := "", ""
	for _, p := range pictures()[:len(segments.Names())*len(drawnOfAll())] {
		switch {
		case p.kind == request.Full:
			fulls += fmt.Sprintf("\n### %s\n\n![%[2]s](%[2]s.svg)\n", p.segment, p.file)
		case p.segment == "suv":
			traces += fmt.Sprintf("\n`%s`\n\n![%[2]s](%[2]s.svg)\n", p.command(), p.file)
		}
	}
	return b.String() + traces + "\n## Every segment, labelled\n" + fulls
}
