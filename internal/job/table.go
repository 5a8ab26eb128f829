package job

import (
	"slices"
	"strconv"
	"strings"

	"hubrule/render/png"
	"hubrule/render/request"
)

// sheetSettings choose what is drawn of which vehicles.
func sheetSettings() []Setting {
	return []Setting{
		{Name: "sheet", Key: "sheets", Default: string(request.Full), List: true, Words: names(request.AllKinds()), always: true,
			Help: "`KINDS` of sheet, comma-separated: " + join(request.AllKinds()),
			parse: func(j *Job, words []string) (err error) {
				j.Kinds, err = listOf(words, request.AllKinds())
				return err
			},
			write: func(_ *writer, j Job) string { return yamlList(j.Kinds) },
		},
		{Name: "given", Default: "1", Words: levels(),
			Help: "what practice sheets give, a `LEVEL`: 1 ground and wheels, 2 levels too, 3 counted wheels too, 4 all guides but one",
			parse: single(func(j *Job, word string) error {
				level, err := oneOf(word, levels())
				j.Setting.Given, _ = strconv.Atoi(level) // one of levels
				return err
			}),
			write: func(_ *writer, j Job) string { return strconv.Itoa(j.Setting.GivenLevel()) },
			used:  hasGiven,
		},
		{Name: "against", List: true, parse: parseAgainst, write: writeAgainst, used: onKinds(request.Overlay),
			Help: "`SEGMENT[+TWEAK=STRENGTH,…]`: what an overlay lays over each segment, like suv+sporty=0.5,longer; up to three times (without it: over the first segment the others)"},
		{Name: "count", Words: []string{"6", "12", "24"}, used: onKinds(request.Thumbnails),
			Help: "how many thumbnails, `N`: 2 to 24, the segments in turn (one for each segment, 12 of a segment alone)",
			parse: single(func(j *Job, word string) (err error) {
				j.Count, err = parseCount(word)
				return err
			}),
			write: func(_ *writer, j Job) string {
				byItself := j.Request
				if byItself.Count = 0; j.Count == 0 || j.Count == byItself.Thumbnails() {
					return ""
				}
				return strconv.Itoa(j.Count)
			},
		},
	}
}

// paperSettings choose the paper and how large the vehicle stands on it.
func paperSettings() []Setting {
	return []Setting{
		{Name: "paper", Default: "A3", Words: paperNames(), always: true,
			Help: "`PAPER`: A4 to A1, letter, legal, tabloid, or a size like 500x300mm or 20x12in",
			parse: single(func(j *Job, word string) (err error) {
				if j.Setting.Paper, err = parsePaper(word); err != nil {
					return err
				}
				return j.Setting.Paper.Check()
			}),
			write: func(_ *writer, j Job) string {
				name, _ := paperName(j.Setting.Paper)
				return name
			},
		},
		{Name: "portrait", Bool: true, Help: "stand the paper on its short side",
			parse: yesOrNo(func(j *Job, yes bool) {
				if yes {
					j.Setting.Paper = j.Setting.Paper.Upright()
				}
			}),
			write: func(_ *writer, j Job) string {
				_, upright := paperName(j.Setting.Paper)
				return ifTrue(upright)
			},
		},
		{Name: "scale", Default: "fit", Words: []string{"fit", "1:", "wheel="}, used: hasScale,
			Help: "`SCALE`: fit, a reduction like 1:16, or the wheel on paper like wheel=60mm",
			parse: single(func(j *Job, word string) (err error) {
				j.Setting.Scale, err = parseScale(word)
				return err
			}),
			write: func(_ *writer, j Job) string { return scaleText(j.Setting.Scale) },
		},
		{Name: "tile", Bool: true, outsideClass: true, outsidePage: true, used: canBeTiled,
			Help:  "over as many pages as the scale takes, to cut and glue (with --scale 1:N or wheel=…)",
			parse: yesOrNo(func(j *Job, yes bool) { j.Setting.Tile = yes }),
			write: func(_ *writer, j Job) string { return ifTrue(j.Setting.Tile) },
		},
	}
}

// lookSettings choose how the vehicle looks and which lines are drawn.
func lookSettings() []Setting {
	facing := choice(func(r *request.Setting) *request.Facing { return &r.Facing }, request.Left, request.Right)
	facing.Name, facing.Default = "facing", string(request.Left)
	facing.Help = "the `SIDE` that the front is on: left or right"
	facing.used = hasFacing

	guides := Setting{Name: "guides", List: true, Words: names(request.Guides()), used: hasGuides,
		Help: "draw only these `GUIDES`, comma-separated: " + join(request.Guides()),
		parse: func(j *Job, words []string) (err error) {
			j.Setting.Guides, err = listOf(words, request.Guides())
			return err
		},
		write: func(_ *writer, j Job) string {
			if j.Setting.Guides == nil {
				return ""
			}
			return yamlList(slices.DeleteFunc(request.Guides(), func(g request.Guide) bool { return !slices.Contains(j.Setting.Guides, g) }))
		},
	}

	labels := choice(func(r *request.Setting) *request.Labels { return &r.Labels }, request.NoLabels, request.ShortLabels, request.FullLabels)
	labels.Name, labels.Default, labels.used = "labels", string(request.FullLabels), hasLabels
	labels.Help = "`STYLE` of the labels: none, short or full (where notes find no room they are left out)"

	units := choice(func(r *request.Setting) *request.Units { return &r.Units }, request.Wheels, request.Millimetres, request.Inches)
	units.Name, units.Default, units.used = "units", string(request.Wheels), hasUnits
	units.Help = "`UNITS` of the labels: w, mm or in"

	ink := choice(func(r *request.Setting) *request.Ink { return &r.Ink }, request.Dark, request.Grey, request.Pale)
	ink.Name = "ink"
	ink.Help = "`INK`: dark, grey or pale (by kind of sheet: dark on full, pale on trace)"
	ink.write = func(_ *writer, j Job) string {
		kinds := j.Kinds
		if j.Setting.Tile { // the marks round a tile have the ink of a full sheet
			kinds = append(slices.Clone(kinds), request.Full)
		}
		if !slices.ContainsFunc(kinds, func(k request.Kind) bool { return j.Ink(k) != k.Ink() }) {
			return ""
		}
		return string(j.Setting.Ink)
	}
	return []Setting{facing, guides, labels, units, ink}
}

// wordSettings choose what is drawn besides, and the words of the strip.
func wordSettings() []Setting {
	return []Setting{
		{Name: "outline", Bool: true, used: hasOutline,
			Help: "draw the vehicle's outline, =false: do not (by kind of sheet: on full, on trace only in other views than the side)",
			parse: yesOrNo(func(j *Job, yes bool) {
				j.Setting.Outline = request.Off
				if yes {
					j.Setting.Outline = request.On
				}
			}),
			write: func(_ *writer, j Job) string {
				chosen := j.Setting.Outline
				for _, p := range pairs(j.Kinds, j.Setting.Seen(), hasOutline) {
					usual := p.kind.Outline()
					if p.kind == request.Trace && p.view != request.SideView {
						usual = request.On
					}
					if chosen != request.ByKind && chosen != usual {
						return strconv.FormatBool(chosen == request.On)
					}
				}
				return ""
			},
		},
		{Name: "checks", Bool: true, used: hasChecks,
			Help:  "draw approach, breakover and departure angles too (an aid to sketching, never an approval)",
			parse: yesOrNo(func(j *Job, yes bool) { j.Setting.Checks = yes }),
			write: func(_ *writer, j Job) string { return ifTrue(j.Setting.Checks) },
		},
		{Name: "frame", Bool: true, Help: "draw a frame with fields after ISO 5457",
			parse: yesOrNo(func(j *Job, yes bool) { j.Setting.Frame = yes }),
			write: func(_ *writer, j Job) string { return ifTrue(j.Setting.Frame) },
		},
		text("title", "`WORDS` that name the sheet, instead of the segment's", func(s *request.Setting) *string { return &s.Title }),
		text("author", "the author's `NAME`, for the PDF's fields", func(s *request.Setting) *string { return &s.Author }),
	}
}

// pictureSettings choose how a picture is made of what is drawn.
func pictureSettings() []Setting {
	return []Setting{
		{Name: "dpi", Default: "300", Raster: true, outsideClass: true, outsidePage: true, Words: []string{"150", "300", "600"},
			Help: "`DOTS` an inch of a .png, 30 to 1200",
			parse: single(func(j *Job, word string) (err error) {
				j.Picture.DPI, err = numberWithin(word, png.MinDPI, png.MaxDPI)
				return err
			}),
			write: func(_ *writer, j Job) string { return inFull(j.Picture.DPI) },
		},
		{Name: "transparent", Bool: true, Raster: true, outsideClass: true, outsidePage: true,
			Help:  "no paper in a .png: lines and words only, to lay over a picture",
			parse: yesOrNo(func(j *Job, yes bool) { j.Picture.Transparent = yes }),
			write: func(_ *writer, j Job) string { return ifTrue(j.Picture.Transparent) },
		},
	}
}

// text is a setting of free words. A class has a title of its own, and its author is that of all its pages.
func text(name, help string, at func(*request.Setting) *string) Setting {
	return Setting{Name: name, Help: help, outsideClass: name == "title", outsidePage: name == "author",
		parse: single(func(j *Job, word string) (err error) {
			*at(&j.Setting), err = parseWords(word)
			return err
		}),
		write: func(_ *writer, j Job) string {
			if words := *at(&j.Setting); words != "" {
				return strconv.Quote(words)
			}
			return ""
		},
	}
}

// choice is a setting that is one of a few names.
func choice[T ~string](at func(*request.Setting) *T, allowed ...T) Setting {
	return Setting{Words: names(allowed),
		parse: single(func(j *Job, word string) (err error) {
			*at(&j.Setting), err = oneOf(word, allowed)
			return err
		}),
		write: func(_ *writer, j Job) string { return string(*at(&j.Setting)) },
	}
}

// names returns a list of names as strings.
func names[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = string(v)
	}
	return out
}

func join[T ~string](list []T) string { return strings.Join(names(list), " ") }
