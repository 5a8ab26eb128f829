package job

import (
	"slices"
	"strconv"
	"strings"

	"hubrule/render/format"
	"hubrule/render/png"
	"hubrule/render/request"
	"hubrule/segments/strict"
)

// kinds are the kinds of sheet that use a setting. TestEverySettingChangesASheet draws them all and holds the table to what it sees.
type kinds []request.Kind

func anyKind() kinds { return request.AllKinds() }

// but returns all kinds without some.
func but(left ...request.Kind) kinds {
	return slices.DeleteFunc(request.AllKinds(), func(k request.Kind) bool { return slices.Contains(left, k) })
}

// scaled returns the kinds whose vehicles stand at a scale: steps and spreads fill their page.
func scaled() kinds { return but(request.Steps, request.Demonstration, request.Spread) }

// cut returns the kinds that can be cut into tiles.
func cut() kinds {
	return but(request.Steps, request.Demonstration, request.Spread, request.Thumbnails)
}

// sheetSettings choose what is drawn of which vehicles.
func sheetSettings() []Setting {
	return []Setting{
		list(Setting{Name: "sheet", Key: "sheets", Default: "full", chooses: true, always: true,
			Help: "`KINDS` of sheet, comma-separated: %s"},
			func(j *Job) *[]request.Kind { return &j.Kinds }, request.AllKinds()),
		one(Setting{Name: "given", Default: "1", Words: levels(), used: sheets(kinds{request.Practice, request.Answer}, nil,
			kinds{request.Practice, request.Answer}, nil),
			Help: "what a practice sheet gives and its answer takes for measured, a `LEVEL`: 1 ground and wheels, 2 levels too, 3 " +
				"counted wheels too, 4 all guides but one " +
				"(in perspective 1 box and a wheel, 2 ground and both near wheels too)"},
			func(j *Job) *int { return &j.Setting.Given }, parseLevel, func(level int) string {
				return strconv.Itoa(max(level, request.GivenWheels))
			}),
		{Name: "against", List: true, parse: parseAgainst, used: sheets(kinds{request.Overlay}, nil, nil, nil),
			write: func(w *writer, j Job) string { return w.vehicles("against", j.Against) },
			Help: "`SEGMENT[+TWEAK=STRENGTH+FIGURE=VALUE…]`: what an overlay lays over each segment, like suv+sporty=0.5+height=2.2w; " +
				"up to three, comma-separated (without it: the first segment lies under the others, the typical one under a variant)"},
		countSetting(),
	}
}

// thumbnails are how many a page may hold.
func thumbnails() strict.Bounds {
	return strict.Bounds{Lo: request.LeastThumbnails, Hi: request.MostThumbnails, Whole: true}
}

func countSetting() Setting {
	s := one(Setting{Name: "count", Words: []string{"6", "12", "24"}, Bounds: []strict.Bounds{thumbnails()},
		used: sheets(kinds{request.Thumbnails}, nil, nil, nil),
		Help: "how many thumbnails, `N`: 2 to 24, shared among the segments (one for each segment, 12 of a segment alone)"},
		func(j *Job) *int { return &j.Count }, func(word string) (int, error) {
			n, err := thumbnails().Parse(word)
			return int(n), err
		}, strconv.Itoa)
	s.write = func(_ *writer, j Job) string {
		byItself := j.Request
		if byItself.Count = 0; j.Count == 0 || j.Count == byItself.Thumbnails() {
			return ""
		}
		return strconv.Itoa(j.Count)
	}
	return s
}

// paperSettings choose the paper and how large the vehicle stands on it.
func paperSettings() []Setting {
	return []Setting{
		one(Setting{Name: "paper", Default: "A3", Words: append(paperNames(), "1920x1080px"), always: true,
			Help: "`PAPER`: " + strings.Join(paperNames(), " ") + ", or a size like 500x300mm, 20x12in or, for a screen, 2732x2048px"},
			func(j *Job) *request.Paper { return &j.Setting.Paper }, parsePaper, func(p request.Paper) string {
				name, _ := p.Named()
				return name
			}),
		turned(Setting{Name: "portrait", Help: "stand the paper on its short side"}, request.Paper.Portrait,
			func(j Job) string { _, upright := j.Setting.Paper.Named(); return ifTrue(upright) }),
		turned(Setting{Name: "landscape", Help: "lay the paper on its long side, as named papers do"}, request.Paper.Landscape,
			func(Job) string { return "" }), // the size is written as it lies
		one(Setting{Name: "scale", Default: "fit", Words: []string{"fit", "1:", "wheel="}, used: sheets(scaled(), anyKind(), nil, nil),
			Help: "`SCALE`: fit, a reduction like 1:16, or the wheel on paper like wheel=60mm"},
			func(j *Job) *request.Scale { return &j.Setting.Scale }, parseScale, scaleText),
		flag(Setting{Name: "tile", outsideClass: true, outsidePage: true, used: sheets(cut(), nil, nil, nil),
			Help: "over as many pages as the scale takes, to cut and glue (with --scale 1:N or wheel=…)"},
			func(j *Job) *bool { return &j.Setting.Tile }),
	}
}

// turned completes a row that turns the paper.
func turned(s Setting, turn func(request.Paper) request.Paper, write func(Job) string) Setting {
	s.Bool = true
	s.parse = single(func(j *Job, word string) error {
		yes, err := parseBool(word)
		if yes {
			j.Setting.Paper = turn(j.Setting.Paper)
		}
		return err
	})
	s.write = func(_ *writer, j Job) string { return write(j) }
	return s
}

// lookSettings choose how the vehicle looks, which lines are drawn, and the words of the title block.
func lookSettings() []Setting {
	return []Setting{
		choice(Setting{Name: "facing", Default: "left", Help: "the `SIDE` that the front is on: left or right",
			used: sheets(but(request.Spread), anyKind(), anyKind(), anyKind())},
			func(j *Job) *request.Facing { return &j.Setting.Facing }, request.Left, request.Right),
		guidesSetting(),
		choice(Setting{Name: "labels", Default: "full",
			Help: "`STYLE` of the labels: none, short or full (where notes find no room they are left out)",
			used: sheets(but(request.Trace, request.Steps, request.Demonstration, request.Practice, request.Spread), kinds{request.Full},
				kinds{request.Full, request.Answer}, nil)},
			func(j *Job) *request.Labels { return &j.Setting.Labels }, request.NoLabels, request.ShortLabels, request.FullLabels),
		choice(Setting{Name: "units", Default: "w", Help: "`UNITS` of the labels: w, mm or in",
			used: sheets(but(request.Trace, request.Thumbnails), kinds{request.Full}, but(request.Trace), nil)},
			func(j *Job) *request.Units { return &j.Setting.Units }, request.Wheels, request.Millimetres, request.Inches),
		inkSetting(),
		outlineSetting(),
		flag(Setting{Name: "checks", Help: "draw approach, breakover and departure angles too (an aid to sketching, never an approval)",
			used: sheets(but(request.Steps, request.Demonstration, request.Overlay, request.Spread), nil, nil, nil)},
			func(j *Job) *bool { return &j.Setting.Checks }),
		flag(Setting{Name: "frame", Help: "draw a frame with fields after ISO 5457",
			used: sheets(but(request.Demonstration), anyKind(), but(request.Demonstration), anyKind())},
			func(j *Job) *bool { return &j.Setting.Frame }),
		flag(Setting{Name: "legend", Help: "explain the kinds of line in a legend",
			used: sheets(kinds{request.Full}, kinds{request.Full}, kinds{request.Full}, nil)},
			func(j *Job) *bool { return &j.Setting.Legend }),
		text(Setting{Name: "title", Help: "`WORDS` that name the sheet, instead of the segment's", outsideClass: true},
			// a class has its own
			func(j *Job) *string { return &j.Setting.Title }),
		text(Setting{Name: "author", Help: "the author's `NAME`, for the PDF's fields", outsidePage: true},
			func(j *Job) *string { return &j.Setting.Author }),
	}
}

func guidesSetting() Setting {
	s := list(Setting{Name: "guides", Help: "draw only these `GUIDES`, comma-separated: %s",
		used: sheets(scaled(), anyKind(), kinds{request.Full, request.Trace, request.Answer}, nil)},
		func(j *Job) *[]request.Guide { return &j.Setting.Guides }, request.Guides())
	s.write = func(_ *writer, j Job) string { // in one order, whichever was given first
		return yamlList(slices.DeleteFunc(request.Guides(), func(g request.Guide) bool { return !slices.Contains(j.Setting.Guides, g) }))
	}
	return s
}

func inkSetting() Setting {
	s := choice(Setting{Name: "ink", Help: "`INK`: dark, grey or pale (by kind of sheet: dark on full, pale on trace)"},
		func(j *Job) *request.Ink { return &j.Setting.Ink }, request.Dark, request.Grey, request.Pale)
	s.write = func(_ *writer, j Job) string {
		kinds := j.Kinds
		if j.Setting.Tile { // the marks round a tile have the ink of a full sheet
			kinds = append(slices.Clone(kinds), request.Full)
		}
		if !slices.ContainsFunc(kinds, func(k request.Kind) bool { return j.Ink(k) != k.Ink() }) {
			return ""
		}
		return string(j.Setting.Ink)
	}
	return s
}

func outlineSetting() Setting {
	chosen := func(j *Job) *request.OutlineMode { return &j.Setting.Outline }
	parse := func(word string) (request.OutlineMode, error) {
		yes, err := parseBool(word)
		return request.OutlineMode(strconv.FormatBool(yes)), err
	}
	s := one(Setting{Name: "outline", Bool: true,
		used: sheets(but(request.Steps, request.Demonstration, request.Practice, request.Spread),
			kinds{request.Full, request.Trace}, kinds{request.Full, request.Answer}, nil),
		Help: "draw the vehicle's outline, =false: do not (by kind of sheet: on full and thumbnails, " +
			"on trace only in other views than the side)"},
		chosen, parse, nil)
	s.write = func(_ *writer, j Job) string {
		differs := func(p pair) bool {
			if p.kind == request.Trace && p.view != request.SideView {
				return *chosen(&j) != request.OutlineOn
			}
			return *chosen(&j) != p.kind.Outline()
		}
		using := pairs(j.Kinds, j.Setting.Seen(), s.used)
		if *chosen(&j) == request.OutlineByKind || using != nil && !slices.ContainsFunc(using, differs) {
			return ""
		}
		return string(*chosen(&j))
	}
	return s
}

// usualDPI is the resolution of pictures and screens where none is chosen.
const usualDPI = 300

// pictureSettings choose how a picture is made of what is drawn.
func pictureSettings() []Setting {
	return []Setting{
		number(Setting{Name: "dpi", Default: strconv.Itoa(usualDPI), Format: format.IsRaster, Words: []string{"150", "300", "600"},
			Help: "`DOTS` per inch of a .png, and of a paper in pixels, 30 to 1200"},
			func(j *Job) *float64 { return &j.Picture.DPI }, png.MinDPI, png.MaxDPI),
		flag(Setting{Name: "transparent", Format: format.IsRaster, outsideClass: true, outsidePage: true,
			Help: "no paper in a .png: lines and words only, to lay over a picture"},
			func(j *Job) *bool { return &j.Picture.Transparent }),
		choice(Setting{Name: "letters", Default: string(format.Text), Format: format.HasOutlines, outsideClass: true, outsidePage: true,
			Help: "`LETTERS` of an .svg: text, or outlines for editors and cutters that do not read embedded fonts"},
			func(j *Job) *format.Letters { return &j.Picture.Letters }, format.Text, format.Outlines),
	}
}
