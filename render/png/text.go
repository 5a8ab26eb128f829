package png

import (
	"strings"
	"unicode"

	"hubrule/render"
)

// about writes the metadata as text chunks under the keywords of the PNG standard (third edition, 11.3.3.2).
// An image without a job is left without words.
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
	beyond := func(r rune) bool { return r > unicode.MaxLatin1 || unicode.IsControl(r) && r != '\n' }
	switch {
	case text == "":
	case strings.ContainsFunc(text, beyond):
		// No compression, its method, no language, no keyword in that language.
		out.chunk("iTXt", []byte(keyword+"\x00\x00\x00\x00\x00"+strings.ToValidUTF8(text, "\ufffd")))
	default:
		data := []byte(keyword + "\x00")
		for _, r := range text {
			data = append(data, byte(r))
		}
		out.chunk("tEXt", data)
	}
}
