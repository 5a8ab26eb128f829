package png

import (
	"hubrule/render"
	"strings"
)

// about writes the metadata as text chunks under the keywords of the PNG standard (third edition, 11.3.3.2).
// A picture without a job is left without words.
func (out *chunkWriter) about(title string, about render.About) {
	if about.Job == "" {
		return
	}
	out.text("Title", title)
	out.text("Author", about.Author)
	out.text("Software", about.Program)
	out.text("Description", about.Job)
}

// text writes one text: as Latin-1, which every reader knows, or as UTF-8 where its letters ask for that. Neither is compressed.
func (out *chunkWriter) text(keyword, text string) {
	switch latin, ok := latin1(text); {
	case text == "":
	case ok:
		out.chunk("tEXt", append([]byte(keyword+"\x00"), latin...))
	default:
		// No compression, its method, no language, no keyword in that language.
		out.chunk("iTXt", []byte(keyword+"\x00\x00\x00\x00\x00"+strings.ToValidUTF8(text, "\ufffd")))
	}
}

// latin1 returns text in ISO 8859-1, and whether it has only letters and line ends of that.
func latin1(text string) ([]byte, bool) {
	out := make([]byte, 0, len(text))
	for _, r := range text {
		if r != '\n' && r < ' ' || r >= 0x7f && r < 0xa0 || r > 0xff {
			return nil, false
		}
		out = append(out, byte(r))
	}
	return out, true
}
