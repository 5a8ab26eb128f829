package desk_test

import (
	"encoding/json"
	"encoding/xml"
	"io"
	"net/http"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

type figures struct {
	Segment, Form string
	Wheel         float64 `json:"wheel-mm"`
	RearWheel     float64 `json:"rear-wheel-mm"`
	ReadsAs       string  `json:"reads-as"`
	Nearest       []struct {
		Segment  string
		Distance float64
	}
	Figures map[string]struct {
		Value               any
		MM, Beyond, Typical *float64
		Unit, State, Limit  string
		Range               []float64
	}
	Dimensions map[string]float64
	Checks     []struct {
		Name, Limit, Source string
		Value               *float64
		Holds               *bool
	}
	Notes []string
	Room  []float64
	Stops *struct{ Lo, Hi string }
	Clash *clash
}

type clash struct {
	Words string
	Sets  []struct {
		Words  string
		Limits []string
		Pins   []struct {
			Figure, Written, Said, Suggestion string
			Value                             float64
			Nearest                           *float64
		}
	}
}

type page struct {
	figures
	Page, Pages              int
	Kind, View, SVG, Problem string
	Width, Height            float64
	Words                    []struct {
		Figure, Anchor    string
		X, Y, Size, Angle float64
		Spans             []struct {
			Text   string
			Weight int
			Value  bool
		}
	}
	Grips []struct {
		Figure, Way string
		X, Y, Per   float64
		About       []float64
		IDs         []string
	}
	Map *struct {
		X, Y   float64
		Scale  float64 `json:"px-per-w"`
		Facing string
	}
	Camera *struct {
		Turn, Lens, Horizon float64
		Eye                 float64 `json:"eye-mm"`
		PerMM               float64 `json:"per-mm"`
		Turns, Eyes, Lenses [2]float64
	}
	Title struct{ Heading, Sub, Remark string }
	Facts [][2]string
	Paper struct {
		Width, Height float64
		Wheel         float64 `json:"wheel-mm"`
		Box           []float64
	}
}

// TestWholeContract walks through every call as docs/calls.md has them: each answer has the keys that are named there and no others.
func TestWholeContract(t *testing.T) {
	t.Parallel()
	c := open(t, "suv", false)
	walkLists(t, c)
	walkFigures(t, c)
	walkSheet(t, c)
	walkFiles(t, c)
}

func walkLists(t *testing.T, c *client) {
	var first struct {
		Job         map[string]any
		Name, Place string
	}
	if c.ask("GET", "/job", "", &first); first.Job["segment"] != "suv" || first.Name != "" || first.Place != "underlay" {
		t.Errorf("/job: %v", first)
	}
	var list struct {
		Segments []struct{ Name, Title, Line, Form, SVG string }
		Tweaks   []struct {
			Name, Title, Line string
			Refused           map[string]string
		}
		Settings []struct {
			Key, Flag, Group, Help, Default string
			Choices                         []string
			List, Bool                      bool
			Bounds                          []struct {
				Lo, Hi float64
				Unit   string
			}
			Goes    [][2]string
			ByKind  map[string]string `json:"by-kind"`
			Options []struct {
				Name, Title string
				Goes, Usual [][2]string
			}
		}
		Figures []struct {
			Name, Role, Unit, Meaning string
			Lo, Hi                    float64
		}
	}
	for _, path := range []string{"/segments", "/tweaks", "/settings", "/figures"} {
		c.ask("GET", path, "", &list)
	}
	if len(list.Segments) < 15 || len(list.Tweaks) < 8 || len(list.Settings) < 30 || len(list.Figures) < 40 {
		t.Errorf("%d segments, %d tweaks, %d settings, %d figures", len(list.Segments), len(list.Tweaks), len(list.Settings), len(list.Figures))
	}
	for _, s := range list.Segments {
		if !isXML(s.SVG) || strings.Contains(s.SVG, "<text") {
			t.Errorf("%s: the picture is %.100s", s.Name, s.SVG)
		}
	}
	for _, s := range list.Settings {
		if s.Key == "" || s.Help == "" || len(s.Goes) == 0 || (s.Key == "ink") != (s.ByKind["trace"] == "pale") ||
			len(s.Options) != len(s.Choices) && s.Key == "guides" {
			t.Errorf("setting %+v", s)
		}
		for _, o := range s.Options {
			if o.Title == "" || len(o.Goes) == 0 {
				t.Errorf("guide %+v", o)
			}
		}
	}
}

func isXML(text string) bool {
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := d.Token(); err != nil {
			return err == io.EOF && text != ""
		}
	}
}

func walkFigures(t *testing.T, c *client) {
	var free, held figures
	c.ask("POST", "/solve", `{"job": {"segment": "suv"}}`, &free)
	if free.Figures["height"].State != "free" || free.Room != nil || free.Notes == nil {
		t.Errorf("/solve: %+v", free)
	}
	c.ask("POST", "/solve", `{"job": {"segment": "suv", "pin": {"height": "2.3w"}, "tweak": {"sporty": "0.5"}}, "hold": "belt"}`, &held)
	if now := held.Figures["belt"].Value.(float64); len(held.Room) != 2 || held.Room[0] > now || held.Room[1] < now {
		t.Errorf("the room of the belt is %v, its value %g", held.Room, now)
	}
	if held.Figures["height"].State != "pinned" || !strings.Contains(held.Stops.Hi, "the pinned height") || held.Stops.Lo == "" {
		t.Errorf("stops %+v", held.Stops)
	}
	var apart figures
	c.ask("POST", "/solve", `{"job": {"segment": "suv", "pin": {"length": "4w", "wheels-between": 3}}}`, &apart)
	if apart.Clash == nil || len(apart.Clash.Sets) != 1 || len(apart.Clash.Sets[0].Pins) != 2 {
		t.Fatalf("clash %+v", apart.Clash)
	}
	for _, p := range apart.Clash.Sets[0].Pins {
		if p.Said != "pin."+p.Figure || p.Nearest == nil || p.Suggestion == "" || p.Written == "" {
			t.Errorf("pin %+v", p)
		}
		// What is suggested works.
		other := map[string]string{"length": `"wheels-between": 3, "length"`, "wheels-between": `"length": "4w", "wheels-between"`}[p.Figure]
		var met figures
		if c.ask("POST", "/solve", `{"job": {"segment": "suv", "pin": {`+other+`: "`+p.Suggestion+`"}}}`, &met); met.Clash != nil {
			t.Errorf("%s %s clashes too: %s", p.Figure, p.Suggestion, met.Clash.Words)
		}
	}
}

func walkSheet(t *testing.T, c *client) {
	const on = `, "screen": {"width": 1200, "height": 700, "lettering-px": 14, "dark": true}}`
	var full, second, seen page
	c.ask("POST", "/sheet", `{"job": {"segment": "suv", "sheets": ["full", "trace"]}`+on, &full)
	if full.Page != 1 || full.Pages != 2 || full.Kind != "full" || full.View != "side" || full.Width != 1200 || full.Map == nil || len(full.Paper.Box) != 4 {
		t.Errorf("sheet: page %d of %d, %s, %s, %g wide, map %v, paper %+v", full.Page, full.Pages, full.Kind, full.View, full.Width, full.Map, full.Paper)
	}
	if !isXML(full.SVG) || strings.Contains(full.SVG, "<text") || !strings.Contains(full.SVG, `id="guide-wheels"`) {
		t.Errorf("SVG %.300s", full.SVG)
	}
	ids := regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(full.SVG, -1)
	for _, g := range full.Grips {
		for _, id := range g.IDs {
			if !slices.ContainsFunc(ids, func(m []string) bool { return m[1] == id }) {
				t.Errorf("grip %s: no element %s", g.Figure, id)
			}
		}
		if g.Way == "turn" && len(g.About) != 2 || g.Per == 0 {
			t.Errorf("grip %+v", g)
		}
	}
	if len(full.Grips) < 8 || len(full.Words) < 20 || len(full.Facts) < 5 || full.Figures["height"].State != "free" {
		t.Errorf("%d grips, %d words, %d facts", len(full.Grips), len(full.Words), len(full.Facts))
	}
	c.ask("POST", "/sheet", `{"job": {"segment": "suv", "sheets": ["full", "trace"]}, "page": 2`+on, &second)
	if second.Kind != "trace" || second.Page != 2 {
		t.Errorf("page 2 is %s", second.Kind)
	}
	c.ask("POST", "/sheet", `{"job": {"segment": "suv", "view": "perspective"}`+on, &seen)
	if seen.Camera == nil || seen.View != "perspective" {
		t.Errorf("camera %+v", seen.Camera)
	}
	if p := c.refused("/sheet", `{"job": {"segment": "suv"}, "page": 2`+on, 422); p.Problems[0].Where != "page" {
		t.Errorf("page 2 of 1: %+v", p)
	}
	if p := c.refused("/sheet", `{"job": {"segment": "suv"}, "screen": {"width": 1e9, "height": 1, "lettering-px": 1}}`, 422); p.Problems[0].Where != "screen" {
		t.Errorf("a huge screen: %+v", p)
	}
}

func walkFiles(t *testing.T, c *client) {
	var line struct{ Line string }
	c.ask("POST", "/command", `{"job": {"segment": "suv", "tweak": {"sporty": 1}}}`, &line)
	if line.Line != "hubrule draw suv --tweak sporty=1 -o suv.pdf" {
		t.Errorf("/command: %s", line.Line)
	}
	var opened struct{ Job json.RawMessage }
	c.ask("POST", "/open", `{"yaml": "kind: brief\nsegment: SUV\npin: {pillar-rake: 31.50, height: 2.30w}\nsheets: full,trace\n"}`, &opened)
	if want := `{"segment":"suv","pin":{"height":"2.30w","pillar-rake":"31.50"},"sheets":["full","trace"],"paper":"A3"}`; string(opened.Job) != want {
		t.Errorf("/open: %s\nwant %s", opened.Job, want)
	}
	var again figures
	c.ask("POST", "/solve", `{"job": `+string(opened.Job)+`}`, &again)
	wrong := c.refused("/open", `{"yaml": "kind: brief\nsegment: suv\npin: {height: 9w}\npapr: A4\n"}`, 422)
	if len(wrong.Problems) != 2 || wrong.Problems[0].Where != "brief.yaml:3:15" || wrong.Problems[1].Nearest != "paper" {
		t.Errorf("/open of mistakes: %+v", wrong)
	}
	answer, _ := c.send("POST", "/keep", `{"job": {"segment": "suv", "sheets": ["full", "trace"]}, "format": "svg", "page": 2}`)
	if got := answer.Header.Get("Content-Disposition"); got != "attachment; filename=suv-2.svg" {
		t.Errorf("/keep: %s", got)
	}
	for path, mime := range map[string]string{"/": "text/html; charset=utf-8", "/fonts/400.ttf": "font/ttf"} {
		answer, data := c.send("GET", path, "")
		tag := answer.Header.Get("ETag")
		if answer.Header.Get("Content-Type") != mime || len(data) == 0 {
			t.Errorf("%s: %s, %d bytes", path, answer.Header.Get("Content-Type"), len(data))
		}
		if answer, _ := c.send("GET", path, "", "If-None-Match", tag); answer.StatusCode != http.StatusNotModified {
			t.Errorf("%s again: %s", path, answer.Status)
		}
	}
}

// TestMistakesAtTheirPlaces: what is wrong in a job is reported in the program's own words, all of it, at the path of its value.
func TestMistakesAtTheirPlaces(t *testing.T) {
	t.Parallel()
	c := open(t, "", false)
	for _, tt := range []struct{ job, where, text, nearest string }{
		{`{"segment": "suv", "pin": {"height": "9w"}}`, "pin.height", "9w; want 1w to 5w", ""},
		{`{"segment": "suvv"}`, "segment", `unknown segment "suvv"; did you mean "suv"?`, "suv"},
		{`{"segment": "suv", "tweak": {"sprty": 1}}`, "tweak", `unknown tweak "sprty"; did you mean "sporty"?`, "sporty"},
		{`{"segment": "suv", "sheets": ["full", "trac"]}`, "sheets", `unknown value "trac"; did you mean "trace"?`, "trace"},
		{`{"segment": "suv", "paper": 7}`, "paper", "unknown paper", ""},
		{`{"segment": "suv", "count": 9}`, "count", "goes with sheets: thumbnails", ""},
		{`{"segment": "suv", "sheets": ["overlay"]}`, "sheets", "an overlay wants something to compare with", ""},
		{`{"segment": "pickup", "tweak": {"fastback": 1}}`, "", "fastback", ""},
		{`{}`, "", "no segment", ""},
		{`[]`, "", "a list; want a table", ""},
		{`{"segment": "suv", "scale": "1:2"}`, "", "", ""}, // only drawn it is too large
	} {
		p := c.refused("/keep", `{"job": `+tt.job+`, "format": "svg"}`, 422).Problems[0]
		if p.Where != tt.where || !strings.Contains(p.Text, tt.text) || p.Nearest != tt.nearest {
			t.Errorf("%s: %+v, want %s: %s", tt.job, p, tt.where, tt.text)
		}
	}
	all := c.refused("/solve", `{"job": {"segment": "suv", "pin": {"height": "9w", "sill": 1}, "paper": "A33", "facing": "up"}}`, 422)
	if len(all.Problems) != 4 {
		t.Errorf("%d problems, want 4: %+v", len(all.Problems), all)
	}
}

// TestEveryPathIsWritten: every path of the contract answers, those behind the word with 401, and every path that answers stands in it.
func TestEveryPathIsWritten(t *testing.T) {
	text, err := os.ReadFile("../../docs/calls.md")
	if err != nil {
		t.Fatal(err)
	}
	var written []string
	for _, m := range regexp.MustCompile("(?m)^(?:## POST|\\| POST|POST|\\|) `?(/[a-z0-9/.]*)`?").FindAllStringSubmatch(string(text), -1) {
		written = append(written, m[1])
	}
	slices.Sort(written)
	want := []string{"/", "/class/check", "/class/page", "/class/print", "/class/progress", "/command", "/enter", "/figures", "/frame", "/job", "/keep", "/marks", "/norms", "/open", "/picture", "/read", "/segments", "/settings", "/sheet", "/solve", "/tweaks"}
	if !slices.Equal(written, want) {
		t.Errorf("docs/calls.md has %q", written)
	}
	c := open(t, "", true)
	for _, path := range want {
		get, _ := c.send("GET", path, "")
		post, _ := c.send("POST", path, "{}")
		if served := []int{get.StatusCode, post.StatusCode}; !slices.Contains(served, 405) || slices.Contains(served, 404) {
			t.Errorf("%s: GET and POST answer %v", path, served)
		}
		if open := path == "/" || path == "/enter"; !open && get.StatusCode != 401 && post.StatusCode != 401 {
			t.Errorf("%s answers without the word: %s, %s", path, get.Status, post.Status)
		}
		if allow := get.Header.Get("Allow") + post.Header.Get("Allow"); allow == "" { // RFC 9110, 15.5.6 (MEM)
			t.Errorf("%s: no Allow", path)
		}
	}
}
