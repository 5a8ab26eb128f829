package segments

import (
	"cmp"
	"slices"
	"strings"

	"hubrule/internal/slice"
	"hubrule/segments/strict"
)

// readTweak reads a tweak. The error is a *strict.Problems with everything that is wrong, in order.
func readTweak(name string, doc *strict.Document) (*Tweak, error) {
	t := &Tweak{Name: name, ByForm: map[Form][]Move{}}
	if !doc.Is("tweak", "") {
		return nil, doc.Err()
	}
	top := doc.Top().Table("key", []string{"kind", "title", "line", "moves", "by-form", "refuse", "no-change", "quarrels"})
	top.Need("kind", "kind: tweak")
	top.Text("title", longestTitle, &t.Title)
	top.Text("line", longestLine, &t.Summary)
	t.Title = cmp.Or(t.Title, name)
	moves, isMoves := top.Get("moves")
	t.Moves = readMoves(moves, "")
	byForm, isByForm := top.Get("by-form")
	if byForm.IsEmpty() {
		byForm.Problem("an empty table; want a form and what moves there")
	}
	for _, f := range formTable(byForm).Fields {
		t.ByForm[Form(f.Name)] = readMoves(f.Value, Form(f.Name))
	}
	if !isMoves && !isByForm && top.Value.IsTable() {
		top.Value.Problem("no moves; want moves or by-form")
	}
	t.refuse = readSentences[Form](top, "refuse", formTable, nil)
	t.noChange = readSentences[Form](top, "no-change", formTable, nil)
	t.conflicts = readSentences[string](top, "quarrels", tweakTable, nil)
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return t, nil
}

func formNames() []string {
	return slice.Map(Forms(), func(f Form) string { return string(f) })
}

// readSentences reads the sentences under a key, one for a form or tweak each; without the key they are the inherited ones.
func readSentences[K ~string](top strict.Table, key string, table func(strict.Value) strict.Table, inherited map[K]string) map[K]string {
	v, ok := top.Get(key)
	if !ok {
		return inherited
	}
	out := map[K]string{}
	for _, f := range table(v).Fields {
		out[K(f.Name)], _ = f.Value.Text(longestSentence)
	}
	return out
}

// formTable returns v as a table whose keys are forms.
func formTable(v strict.Value) strict.Table { return v.Table("form", formNames()) }

// tweakTable returns v as a table whose keys may be names of tweaks: a user may have tweaks of his own.
func tweakTable(v strict.Value) strict.Table {
	t := v.AnyTable()
	t.Fields = slices.DeleteFunc(t.Fields, func(f strict.Field) bool {
		bad := strings.Trim(f.Name, "abcdefghijklmnopqrstuvwxyz-") != ""
		if bad {
			f.Problem("%s; want the name of a tweak", strict.Quote(f.Name))
		}
		return bad
	})
	return t
}

// readMoves reads figure → move; form is "" where they are for every form.
func readMoves(v strict.Value, form Form) []Move {
	if v.IsEmpty() {
		v.Problem("an empty table; want at least one figure")
	}
	var out []Move
	for f, field := range readFigureTable(v, form.unmovable) {
		out = append(out, readMove(f, field.Value))
	}
	return out
}

// isPart reports whether a tweak may move a derived figure: one of the typical plan's parts.
func isPart(f Figure) bool {
	return f == Greenhouse || f == BodySide || f == Wheelbase || f == PillarFoot
}

// unmovable says why a tweak may not move figure f in form m.
func (m Form) unmovable(f Figure) string {
	why := m.lacks(f)
	switch {
	case why == "" && atTop(f):
		return f.String() + " is not for tweaks to move; want it left out, or pinned"
	case why == "" && f.Info().Role == Derived && !isPart(f):
		return f.String() + " follows from other figures; want those moved"
	}
	return why
}

// readMove reads {by: …, of: …, below: …, why: …} or {toward: …, share: …, until: …, below: …, before: tail, why: …}.
func readMove(f Figure, v strict.Value) Move {
	m := Move{Figure: f, Of: f}
	t := v.Table("key", []string{"by", "of", "toward", "share", "until", "below", "before", "why"})
	if !t.Value.IsTable() {
		return m
	}
	by, isBy := t.Get("by")
	toward, isToward := t.Get("toward")
	switch {
	case isBy && isToward:
		v.Problem("both by and toward; want one of them")
	case isBy:
		m.By, m.HalfRanges = readBy(f, by)
		if x, ok := t.Get("below"); ok {
			below := readAmount(f, x, moveBounds(f), "")
			m.Below = &below
		}
		for _, key := range []string{"share", "until", "before"} {
			if x, ok := t.Get(key); ok {
				x.Problem("goes with toward, not with by")
			}
		}
	case isToward:
		m.Toward = readGoal(f, toward, t)
	default:
		v.Problem("no by; want {by: …, why: …} or {toward: …, why: …}")
	}
	if of, ok := t.Get("of"); ok {
		m.Of = readOf(of, m)
	} else if m.HalfRanges && f.Info().Role != Declared {
		by.Problem("%s has no range of its own; want of: and a figure that has one", f)
	}
	t.Need("why", "why: and a reason in a few words")
	t.Text("why", longestSentence, &m.Why)
	return m
}

// readOf reads whose half-ranges a move is counted in.
func readOf(v strict.Value, m Move) Figure {
	declared, _ := figuresWithout(func(f Figure) string {
		if f.Info().Role != Declared {
			return "no range"
		}
		return ""
	})
	text, _ := v.Scalar()
	f, known := Lookup(text)
	if known && f.Info().Role != Declared {
		v.Problem("%s has no range; want %s", f, strict.JoinOr(declared))
		return m.Figure
	}
	if _, ok := v.Choice("figure", declared); !ok {
		return m.Figure
	}
	if !m.HalfRanges {
		v.Problem("goes with half-ranges like 0.6h")
	} else if f.Info().Unit != m.Figure.Info().Unit {
		v.Problem("%s is counted in another unit than %s; want one that is not", f, m.Figure)
	}
	return f
}

// moveBounds is the farthest that a move of one unit of strength makes sense, either way (judged by eye).
func moveBounds(f Figure) Range {
	most := map[Unit]float64{InDegrees: 45, InWheels: 2, AsCount: 2, AsRatio: .5}[f.Info().Unit]
	return Range{-most, most}
}

// readBy reads a move: in half-ranges, 0.6h; lengths in wheels; counts, ratios and degrees as plain numbers.
func readBy(f Figure, v strict.Value) (by float64, halfRanges bool) {
	const maxHalf = 10
	text, _ := v.Scalar()
	if number, ok := strings.CutSuffix(text, "h"); ok {
		x, ok := strict.ParseNumber(number)
		if !ok || x < -maxHalf || x > maxHalf {
			v.Want("half-ranges, -%dh to %dh%s", maxHalf, maxHalf, strict.NumberHint(number))
		}
		return x, true
	}
	halves := ""
	if f.Info().Role == Declared {
		halves = ", or half-ranges like 0.6h"
	}
	return readAmount(f, v, moveBounds(f), halves), false
}

// readAmount reads a length in wheels, or a plain number for what has no unit. Alternative describes what else is allowed.
func readAmount(f Figure, v strict.Value, sense Range, alternative string) float64 {
	if f.Info().Unit != InWheels {
		x, _ := v.Number(sense.Lo, sense.Hi)
		return x
	}
	text, _ := v.Scalar()
	l, err := ParseLength(text)
	switch {
	case err == nil && l.Unit == "w" && sense.contains(l.Value):
		return l.Value
	case err == nil && l.Unit != "w":
		v.Want("wheels, like -0.09w: a tweak knows no tyre")
	default:
		v.Want("%s%s%s", f.rangeText(sense), alternative, strict.NumberHint(text))
	}
	return 0
}

// readGoal reads a share of the way to a value. Without until it goes no further than at strength 1.
func readGoal(f Figure, v strict.Value, t strict.Table) *Goal {
	g := &Goal{Share: 1, Until: 1}
	sense := f.bounds()
	if x, ok := t.Get("before"); ok {
		x.Choice("end", []string{"tail"})
		g.BeforeTail = true
		sense.Lo = 0
		if f != TailFoot {
			x.Problem("only tail-foot is counted from the tail; want it left out")
		}
	}
	g.Value = readAmount(f, v, sense, "")
	t.Number("share", 0, 1, &g.Share)
	t.Number("until", 0, strongest, &g.Until)
	g.Below = readAmount(f, t.At("below"), moveBounds(f), "")
	return g
}
