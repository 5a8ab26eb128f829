package counting

import "hubrule/render/draft"

// Lighter is how a line is drawn that stood there before: told by its width, so that a copy still teaches.
func Lighter(k draft.LineStyle) draft.LineStyle {
	k.Width = draft.Hair
	if k.Role == draft.Accent {
		k.Role = draft.Plain
	}
	return k
}

// Heavier is how a step's own line is drawn.
func Heavier(k draft.LineStyle) draft.LineStyle {
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
