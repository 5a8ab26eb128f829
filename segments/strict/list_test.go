package strict

import (
	"slices"
	"testing"
)

func TestSplitList(t *testing.T) {
	for _, tt := range []struct {
		text      string
		separator byte
		want      []string
	}{
		{"suv, van ,4x4", ',', []string{"suv", "van", "4x4"}},
		{"sporty=0,5,tough", ',', []string{"sporty=0,5", "tough"}},
		{"height=2, 2w", ',', []string{"height=2, 2w"}},
		{"suv,2024.yaml", ',', []string{"suv", "2024.yaml"}},
		{"sporty,", ',', []string{"sporty", ""}},
		{"sporty=+.5+height=2,2w", '+', []string{"sporty=+.5", "height=2,2w"}},
		{"", ',', []string{""}},
	} {
		if got := SplitList(tt.text, tt.separator); !slices.Equal(got, tt.want) {
			t.Errorf("%q: %q, want %q", tt.text, got, tt.want)
		}
	}
}
