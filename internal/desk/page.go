package desk

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"fmt"
	"io/fs"
	"net/http"
	"path"

	"hubrule/fonts"
)

// The page as it was built.
//
//go:generate go -C ../../docs/tools/page run .
//go:embed page/dist
var dist embed.FS

// part is one file of the page.
type part struct {
	mime, tag string
	data      []byte
}

var partTypes = map[string]string{".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".css": "text/css; charset=utf-8", ".ttf": "font/ttf"} // RFC 9239, RFC 8081 (MEM)

// pageParts returns the files of the page by their paths; fonts stand under /fonts/, by their weight.
func pageParts() map[string]part {
	out := map[string]part{}
	add := func(name string, data []byte) {
		sum := sha256.Sum256(data)
		out[name] = part{partTypes[path.Ext(name)], `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`, data}
	}
	entries, err := fs.ReadDir(dist, "page/dist")
	if err != nil {
		panic("desk: " + err.Error())
	}
	for _, e := range entries {
		data, err := dist.ReadFile("page/dist/" + e.Name())
		if err != nil {
			panic("desk: " + err.Error())
		}
		if e.Name() == "index.html" {
			add("/", data)
			out["/"] = part{partTypes[".html"], out["/"].tag, data}
			continue
		}
		add("/"+e.Name(), data)
	}
	for _, w := range fonts.Weights() {
		add(fmt.Sprintf("/fonts/%d.ttf", w), fonts.TTF(w))
	}
	return out
}

// ServeHTTP answers with the file, unless the browser has it.
func (p part) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Cache-Control", "no-cache")
	h.Set("ETag", p.tag)
	if r.Header.Get("If-None-Match") == p.tag { // RFC 9110, 13.1.2 (MEM)
		w.WriteHeader(http.StatusNotModified)
		return
	}
	h.Set("Content-Type", p.mime)
	w.Write(p.data)
}
