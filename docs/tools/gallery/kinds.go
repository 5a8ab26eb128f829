package main

import (
	"bytes"
	"image"
	"image/color"
	imagepng "image/png"
	"os"
	"path/filepath"

	"golang.org/x/image/draw"

	"hubrule/layout"
	"hubrule/render/png"
	"hubrule/render/request"
	"hubrule/render/sheet"
	"hubrule/segments"
)

// kindsOf lists the segments of which every kind of sheet, every view and every paper is shown.
var kindsOf = []string{"sedan", "off-roader", "convertible"}

// The grid of such a contact sheet, in dots: a page is as large as its cell lets it be.
const (
	pagesAcross = 6
	pageWidth   = 300
	pageHeight  = 230
	pageGap     = 12
)

// kindRequests lists what a contact sheet shows of a segment: on A3 every kind and every view, then the full sheet on every paper.
func kindRequests(name string) (out []request.Request, err error) {
	profile, err := segments.Find(name)
	if err != nil {
		return nil, err
	}
	base := request.Request{Plans: []layout.Plan{layout.Typical(profile)}, Kinds: []request.Kind{request.Full}, Setting: usual()}
	for _, kind := range request.AllKinds() {
		r := base
		if r.Kinds = []request.Kind{kind}; kind == request.Overlay || kind == request.Spread {
			other, err := segments.Find("suv")
			if err != nil {
				return nil, err
			}
			r.Plans = append(r.Plans[:1:1], layout.Typical(other))
		}
		out = append(out, r)
	}
	for _, p := range views() {
		if p.segment == "suv" && p.kind == request.Full || p.file == "sedan-arrangement" || p.file == "pickup-top" {
			r := base
			r.Setting = p.setting
			out = append(out, r)
		}
	}
	for _, p := range request.Papers() {
		if r := base; p.Name != r.Setting.Paper.Name {
			r.Setting.Paper = p
			out = append(out, r)
		}
	}
	return out, nil
}

// kindSheet draws the first page of each sheet side by side.
func kindSheet(name string) error {
	requests, err := kindRequests(name)
	if err != nil {
		return err
	}
	rows := (len(requests) + pagesAcross - 1) / pagesAcross
	sheets := image.NewRGBA(image.Rect(0, 0, pagesAcross*pageWidth+pageGap, rows*pageHeight+pageGap))
	draw.Draw(sheets, sheets.Bounds(), image.NewUniform(color.Gray{Y: 0xc8}), image.Point{}, draw.Src)
	for i, r := range requests {
		doc, _, err := sheet.Compose(r)
		if err != nil {
			return err
		}
		page := doc.Pages[0]
		dots := min((pageWidth-pageGap)/float64(page.Width), (pageHeight-pageGap)/float64(page.Height)) // per mm
		var b bytes.Buffer
		if err := png.Write(&b, page, png.Options{DPI: 2 * png.MinDPI}); err != nil {
			return err
		}
		picture, err := imagepng.Decode(&b)
		if err != nil {
			return err
		}
		corner := image.Pt(pageGap+i%pagesAcross*pageWidth, pageGap+i/pagesAcross*pageHeight)
		to := image.Rect(0, 0, int(float64(page.Width)*dots), int(float64(page.Height)*dots)).Add(corner)
		draw.CatmullRom.Scale(sheets, to, picture, picture.Bounds(), draw.Src, nil)
	}
	var b bytes.Buffer
	if err := imagepng.Encode(&b, sheets); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, name+"-kinds.png"), b.Bytes(), 0o666)
}
