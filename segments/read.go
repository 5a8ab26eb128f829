package segments

import (
	"strings"

	"hubrule/segments/strict"
)

// The longest texts of a profile, in characters: a title stands on a sheet, a line in a table.
const (
	longestTitle    = 40
	longestLine     = 120
	longestSentence = 400
)

// profileReader reads one file step by step; whatever is wrong is gathered in its document.
type profileReader struct {
	top     strict.Table
	profile *Profile
	extends bool // the file builds on another profile: what it leaves out is inherited
	parent  Form // that profile's form; "" if there is none or it was not found
}

// blind reports whether the parent was not found: then nobody knows what this file leaves out.
func (r *profileReader) blind() bool { return r.extends && r.parent == "" }

// inherits reports whether a figure was there before this file was read.
func (r *profileReader) inherits(f Figure) bool { return r.parent != "" && r.parent.Has(f) }

// readProfile reads a profile. The error is a *strict.Problems with everything that is wrong, in order.
func readProfile(name string, doc *strict.Document) (*Profile, error) {
	r := profileReader{profile: &Profile{Name: name}}
	if !doc.Is("segment", "") {
		return nil, doc.Err()
	}
	r.top = doc.Top().Table("key", []string{
		"kind", "extends", "title", "line", "form", "wheel", "rear-wheel",
		"figures", "outline", "solid", "glass-from", "refuse", "no-change",
	}, "aliases")
	r.inherit()
	r.required()
	p := r.profile
	r.top.Text("title", longestTitle, &p.Title)
	r.top.Text("line", longestLine, &p.Summary)
	r.aliases()
	r.form()
	r.wheels()
	r.figures()
	r.outline()
	r.solid()
	p.refuse = readSentences(r.top, "refuse", tweakTable, p.refuse)
	p.noChange = readSentences(r.top, "no-change", tweakTable, p.noChange)
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return p, nil
}

// readOwnProfile reads a profile outside the catalogue.
func readOwnProfile(name string, doc *strict.Document) (*Profile, error) {
	if v, ok := doc.Peek("aliases"); ok {
		v.Problem("a profile outside the catalogue is found by its path; want no aliases")
	}
	return readProfile(name, doc)
}

// mostAliases is how many everyday words a segment may have.
const mostAliases = 20

func (r *profileReader) aliases() {
	r.profile.Aliases, r.profile.inCatalogue = nil, false // what is built on a segment is another one
	v, ok := r.top.Get("aliases")
	if !ok {
		return
	}
	items, _ := v.Items(1, mostAliases)
	for _, item := range items {
		if word, ok := item.Text(longestTitle); ok {
			r.profile.Aliases = append(r.profile.Aliases, word)
		}
	}
}

// inherit starts from the profile that the file builds on.
func (r *profileReader) inherit() {
	v, ok := r.top.Get("extends")
	r.extends = ok
	parent := ""
	if text, single := v.Scalar(); single {
		parent, _ = named(text)
	}
	if parent == "" && ok {
		parent, _ = v.Choice("segment", Names()) // reports it
	}
	if parent != "" {
		name := r.profile.Name
		r.profile = fromCatalogue(parent)
		r.profile.Name, r.profile.Extends = name, parent
		r.parent = r.profile.Form
	}
}

// required reports what a file that builds on nothing has to say and does not.
func (r *profileReader) required() {
	var missing []string
	for _, key := range []string{"title", "form", "wheel", "figures"} {
		if _, ok := r.top.Get(key); !ok {
			missing = append(missing, key)
		}
	}
	if missing != nil && !r.extends && r.top.Value.IsTable() {
		r.top.Value.Problem("no %s; want title, form, wheel and figures, or extends: SEGMENT", strings.Join(missing, ", "))
	}
}

func (r *profileReader) form() {
	p := r.profile
	if form := r.top.Choice("form", "form", formNames()); form != "" {
		p.Form = Form(form)
	}
	// The side glass of a cab keeps its place when the bed behind it takes a longer wheelbase.
	p.GlassFromFront = p.GlassFromFront || p.Form == Bed
	if from := r.top.Choice("glass-from", "axle", []string{"front", "rear"}); from != "" {
		p.GlassFromFront = from == "front"
	}
}

// wheels reads both tyres. A new front tyre without a rear one stands at both ends.
func (r *profileReader) wheels() {
	if tyre, ok := readTyre(r.top.At("wheel")); ok {
		r.profile.Wheel, r.profile.RearWheel = tyre, tyre
	}
	if v, ok := r.top.Get("rear-wheel"); ok {
		if tyre, ok := readTyre(v); ok {
			r.profile.RearWheel = tyre
		}
		if q := r.profile.RearRatio(); r.profile.Wheel.Diameter > 0 && (q < .5 || q > 2) {
			v.Want("half to twice the front wheel, %s", r.profile.Wheel)
		}
	}
}

func readTyre(v strict.Value) (Tyre, bool) { return parseScalar(v, tyreForm, ParseTyre) }

// parseScalar reads a value out of a text; want describes what is allowed.
func parseScalar[T any](v strict.Value, want string, parse func(string) (T, error)) (out T, ok bool) {
	text, ok := v.Scalar()
	if !ok {
		v.Want("%s", want)
		return out, false
	}
	out, err := parse(text)
	if err != nil {
		v.Problem("%v", err)
	}
	return out, err == nil
}
