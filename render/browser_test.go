package render_test

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"regexp"
	"strings"
	"testing"

	"hubrule/fonts"
	"hubrule/internal/geom"
	"hubrule/internal/outside"
	"hubrule/internal/testpage"
	"hubrule/render"
)

var measured = regexp.MustCompile(`(?m)^([0-9.]+)\|([0-9.]+)\|([0-9.]+)\|(.*)$`)

// TestOracleBrowser: Chromium sets the words of the SVG in the embedded font, as wide as fonts.Width says and at
// their place. It is shown the page ten times as large, since it rounds what is small to 1/64 of a pixel.
func TestOracleBrowser(t *testing.T) {
	outside.Oracle(t, "chromium-headless-shell")
	browse(t, testpage.Sample(), 3)
}

// TestOracleBrowserNames: boxes and the letters of an fallback face are as wide in Chromium as measured. It gives combining
// marks that are boxes no width; those are left out here.
func TestOracleBrowserNames(t *testing.T) {
	outside.Oracle(t, "chromium-headless-shell")
	useFallback(t)
	browse(t, names("王小明", "Zoë 👩\u200d🔧 Smith", "語😀 and 字", "Аня \u200b\u2060B", "Łukasz", "字語字語"), 4)
}

// browse compares what Chromium measures on page with the model, and the number of fonts that it finds there.
func browse(t *testing.T, page render.Page, faces int) {
	t.Helper()
	_, svg, _ := bytes.Cut(svgOf(t, page), []byte("<svg"))
	size := `width="%gmm" height="%gmm"`
	svg = bytes.Replace(svg, fmt.Appendf(nil, size, page.Width, page.Height), fmt.Appendf(nil, size, 10*page.Width, 10*page.Height), 1)
	doc := outside.File(t, "page.html", fmt.Appendf(nil, `<meta charset="utf-8"><body><svg%s<pre id="out"></pre><script>
document.fonts.ready.then(() => { let out = '\n';
for (const t of document.querySelectorAll('text')) out += [t.getComputedTextLength(), t.getStartPositionOfChar(0).x, document.fonts.size, t.textContent].join('|') + '\n';
document.getElementById('out').textContent = out })</script>`, svg))
	dom := string(outside.Run(t, "chromium-headless-shell", "--font-render-hinting=none", "--no-sandbox", "--disable-gpu", "--virtual-time-budget=5000", "--dump-dom", "file://"+doc))
	lines := measured.FindAllStringSubmatch(dom, -1)
	i := 0
	for _, m := range page.Marks {
		text, ok := m.(*render.Text)
		if !ok {
			continue
		}
		if i >= len(lines) {
			t.Fatalf("Chromium measured %d texts only:\n%s", len(lines), dom)
		}
		width, words := geom.MM(0), ""
		for _, s := range text.Spans {
			width, words = width+fonts.Width(s.Text, s.Height, s.Weight), words+s.Text
		}
		got := Number(t, lines[i][1])
		if html.UnescapeString(lines[i][4]) != words || math.Abs(got-float64(width)) > 0.05 {
			t.Errorf("Chromium sets %q %.3f mm wide, want %q %.3f", lines[i][4], got, words, width)
		}
		start := text.At.X - map[render.Anchor]geom.MM{render.Start: 0, render.Middle: width / 2, render.End: width}[text.Anchor]
		if x := Number(t, lines[i][2]); math.Abs(x-float64(start)) > 0.05 {
			t.Errorf("%q starts at %.3f, want %.3f", words, x, start)
		}
		i++
	}
	if strings.Count(string(svg), "@font-face") != faces || lines[0][3] != fmt.Sprint(faces) {
		t.Errorf("Chromium has %s embedded fonts, want %d", lines[0][3], faces)
	}
}

// TestOracleMuPDF: a third program draws the wheel as wide as it should be.
func TestOracleMuPDF(t *testing.T) {
	outside.Oracle(t, "mutool")
	const dpi = 300
	wheel := testpage.Sample().Marks[1].(*render.Circle)
	path := outside.File(t, "page.pdf", pdfOf(t, testpage.Sample()))
	r := readPNG(t, outside.Run(t, "mutool", "draw", "-q", "-r", fmt.Sprint(dpi), "-c", "gray", "-F", "png", "-o", "-", path, "1"), dpi)
	if got, want := r.diameter(wheel.Centre, wheel.R), 2*float64(wheel.R); math.Abs(got-want) > 0.1 {
		t.Errorf("the wheel is %.3f mm wide, want %.3f", got, want)
	}
	if text := string(outside.Run(t, "mutool", "draw", "-q", "-F", "text", "-o", "-", path, "1")); !strings.Contains(text, "AV To. office fjord") {
		t.Errorf("mutool reads %q", text)
	}
}
