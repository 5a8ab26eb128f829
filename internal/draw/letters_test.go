package draw

import (
	"testing"
)

func TestMissingLetters(t *testing.T) {
	t.Parallel()
	const face = " in the sheets' face; drawn as empty boxes; --font FILE adds a face"
	tests := []struct {
		texts []string
		want  string
	}{
		{nil, ""},
		{[]string{"Ærø", "", "soft\u00adhyphen", "\u200d"}, ""},
		{[]string{"語字", "a", "字人"}, `no letter for "語", "字", "人"` + face},
		{[]string{"一二三四五", "六七八九十"}, `no letter for "一", "二", "三", "四", "五", "六", "七", "八", "九", "十"` + face},
		{[]string{"一二三四五", "六七八九十百"}, `no letter for "一", "二", "三", "四", "五", "六", "七", "八", "九", "十" and 1 more` + face},
	}
	for _, tt := range tests {
		if got := MissingLetters(tt.texts...); got != tt.want {
			t.Errorf("MissingLetters(%q) = %q\nwant %q", tt.texts, got, tt.want)
		}
	}
}

func BenchmarkMissingLetters(b *testing.B) {
	names := make([]string, 10_000)
	for i := range names {
		names[i] = []string{"Łukasz Żółć", "王小明", "علي رضا", "Anna Smith"}[i%4]
	}
	for b.Loop() {
		MissingLetters(names...)
	}
}
