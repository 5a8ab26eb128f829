package compare

import (
	"hubrule/render"
	"hubrule/render/draft"
)

// variantLine is the line of plan k; 0 is the base. Each has dashes of its own, so that a copy in black and white tells them apart too.
func variantLine(k int) draft.LineStyle {
	switch k {
	case 0:
		return draft.NewLineStyle(draft.Narrow, draft.Plain, 4, 2)
	case 1:
		return draft.NewLineStyle(draft.Wide, draft.Accent)
	case 2:
		return draft.NewLineStyle(draft.Wide, draft.Contrast, 7, 3)
	}
	return draft.NewLineStyle(draft.Wide, draft.Strong, 12, 3, 1.5, 3)
}

// coloured returns words in the colour of plan k: the base's in that of all words.
func coloured(k int, ws ...draft.Word) []draft.Word {
	for i := range ws {
		if k > 0 {
			ws[i].Role = variantLine(k).Role
		}
	}
	return ws
}

// overlayPen returns the style of a line: shared lines continuous, the base's dashed, those of the others heavy, each with its own dashes.
func overlayPen(owner int, m render.Tagged, was draft.LineStyle) draft.LineStyle {
	switch {
	case owner == shared:
		was.Dash = nil
		if was.Width == draft.Wide {
			was.Role = draft.Strong
		}
		if m.Guide == "pillar" {
			was.Width = draft.Narrow
		}
		return was
	case owner == 0:
		k := variantLine(0)
		k.Width = min(was.Width, k.Width)
		return k
	}
	k := variantLine(owner)
	if m.Guide != "outline" && m.ID != "pillar" {
		k.Width = min(was.Width, draft.Narrow)
	}
	return k
}
