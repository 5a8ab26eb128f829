package compare

import (
	"hubrule/internal/geom"
	"hubrule/render"
	"hubrule/render/counting"
	"hubrule/render/draft"
)

// overlayKey explains the lines of an overlay above the vehicles: of two in the corner, of several in rows.
type overlayKey struct {
	entries       []keyEntry
	sample        geom.MM // of a line
	columns       int
	column, width geom.MM // of one column, and of all
}

// keyEntry is a line of the key.
type keyEntry struct {
	line  draft.LineStyle
	words []draft.Word
}

// Distances in a key: a row to the next, the sample of a line to its words, a letter to the name, a column to the next.
const (
	keyPitch   geom.MM = 4.6
	afterLine  geom.MM = 3
	afterKey   geom.MM = 4
	betweenKey geom.MM = 7
)

// newKey measures the key of the page, with the rakes of A-pillars or without.
func (o *overlayPage) newKey(rakes bool) overlayKey {
	key := overlayKey{sample: 16, columns: 1, width: o.canvas.Space.Width()}
	key.column = key.width + betweenKey
	sharedBy := "shared by all, drawn once"
	if o.several() {
		key.sample, sharedBy = 24, "shared, drawn once"
	}
	for k, name := range fullNames(o.plans) {
		words := coloured(k, draft.Name(name))
		if o.keys != nil {
			words = append(coloured(k, draft.Value(o.keys[k])), words...)
		}
		if rakes {
			words = append(words, draft.Note(", A-pillar "+draft.FormatAngle(o.plans[k].PillarRake())))
		}
		key.entries = append(key.entries, keyEntry{variantLine(k), words})
	}
	key.entries = append(key.entries, keyEntry{counting.GuideLine(), []draft.Word{draft.Note(sharedBy)}})
	if o.several() {
		widest := geom.MM(0)
		for _, e := range key.entries {
			widest = max(widest, key.sample+afterLine+afterKey+draft.OneLine(e.words...).Width+betweenKey)
		}
		key.columns = max(1, min(len(key.entries), int((key.width+betweenKey)/widest)))
		key.column = (key.width + betweenKey) / geom.MM(key.columns)
	}
	return key
}

// rows is how many lines the key has.
func (k overlayKey) rows() int { return (len(k.entries) + k.columns - 1) / k.columns }

// height is that of the key's rows.
func (k overlayKey) height() geom.MM { return keyPitch * geom.MM(k.rows()) }

// key draws the key at the top of the page.
func (o *overlayPage) key(b *draft.Surface, rakes bool) {
	key := o.newKey(rakes)
	for i, e := range key.entries {
		at := o.canvas.Space.Min.Add(draft.Pt(key.column*geom.MM(i%key.columns), 2+keyPitch*geom.MM(i/key.columns)))
		at.X = b.Seams.After(at.X, key.sample+afterLine+afterKey+draft.OneLine(e.words...).Width)
		right := min(at.X+key.column-betweenKey, o.canvas.Space.Max.X)
		b.Line(e.line.For("labels", ""), at, at.Add(draft.Pt(key.sample, 0)))
		at.X += key.sample + afterLine
		if o.keys != nil && i < len(o.keys) {
			b.Write("labels", draft.OneLine(e.words[0]).MiddleAt(at.X, at.Y, render.Start))
			at.X, e.words = at.X+afterKey, e.words[1:]
		}
		rest := draft.NewLabel(e.words[1:]).Width
		e.words[0] = draft.Truncated(e.words[0], right-at.X-rest)
		b.Write("labels", draft.OneLine(e.words...).MiddleAt(at.X, at.Y, render.Start))
	}
}
