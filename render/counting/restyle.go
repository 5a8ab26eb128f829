package counting

import "hubrule/render/draft"

// Faint is how a line is drawn that stood there before: told by its width, so that a copy still teaches.
func Faint(k draft.LineStyle) draft.LineStyle {
	k.Width = draft.Hair
	if k.Role == draft.Accent {
		k.Role = draft.Plain
	}
	return k
}

// Heavy is how a step's own line is drawn.
func Heavy(k draft.LineStyle) draft.LineStyle {
	switch {
	case k.Dash == nil && k.Width > draft.Hair:
		k.Width = draft.Wide
	case k.Width > draft.Hair:
		k.Width = draft.Narrow
	}
	if k.Role == draft.Soft {
		k.Role = draft.Strong
	}
	return k
}
