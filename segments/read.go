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

// profileReader reads one file step by step; whatever is wrong is gathered in doc.
type profileReader struct {
	doc     *strict.Document
	top     strict.Table
	parent  *Profile // the profile extended, nil if none
	profile *Profile
}

// readProfile reads a profile. The error is a *strict.Problems with everything that is wrong, in order.
func readProfile(name string, doc *strict.Document) (*Profile, error) {
	r := profileReader{doc: doc, profile: &Profile{Name: name}}
	r.top = doc.Top().Table("key", []string{
		"kind", "extends", "title", "line", "form", "wheel", "rear-wheel",
		"figures", "outline", "glass-from", "refuse", "no-change",
	})
	if v, ok := r.top.Get("kind"); ok {
		v.Choice("kind of segment file", []string{"segment"})
	}
	r.extends()
	r.words()
	r.form()
	r.wheels()
	r.figures()
	r.outline()
	r.sentences()
	if err := doc.Err(); err != nil {
		return nil, err
	}
	return r.profile, nil
}

// extends starts from a copy of the profile that the file builds on.
func (r *profileReader) extends() {
	v, ok := r.top.Get("extends")
	if !ok {
		return
	}
	if parent, ok := v.Choice("segment", Names()); ok {
		r.parent = fromCatalogue(parent)
		name := r.profile.Name
		*r.profile = *r.parent
		r.profile.Name = name
	}
	// A wrong name is one mistake: what it would have brought is not told missing.
	if r.parent == nil {
		r.parent = &Profile{}
	}
}

// complete reports whether the file has to say everything itself.
func (r *profileReader) complete() bool { return r.parent == nil }

func (r *profileReader) words() {
	r.text("title", longestTitle, &r.profile.Title)
	r.text("line", longestLine, &r.profile.Line)
}

func (r *profileReader) text(key string, longest int, into *string) {
	if v, ok := r.need(key); ok {
		if text, ok := v.Text(longest); ok {
			*into = text
		}
	}
}

// need returns a key's value and reports its absence in a file that extends nothing.
func (r *profileReader) need(key string) (strict.Value, bool) {
	v, ok := r.top.Get(key)
	if !ok && r.complete() && r.top.Value.IsTable() {
		r.top.Value.Problem("no %s; want one, or extends: SEGMENT", key)
	}
	return v, ok
}

func (r *profileReader) form() {
	if v, ok := r.need("form"); ok {
		var names []string
		for _, form := range Forms() {
			names = append(names, string(form))
		}
		if form, ok := v.Choice("form", names); ok {
			r.profile.Form = Form(form)
		}
	}
	// The side glass of a cab keeps its place when the bed behind it takes a longer wheelbase.
	r.profile.GlassFromFront = r.profile.GlassFromFront || r.profile.Form == Bed
	if v, ok := r.top.Get("glass-from"); ok {
		if from, ok := v.Choice("axle", []string{"front", "rear"}); ok {
			r.profile.GlassFromFront = from == "front"
		}
	}
}

// wheels reads both tyres. A new front tyre without a rear one stands at both ends.
func (r *profileReader) wheels() {
	if v, ok := r.need("wheel"); ok {
		if tyre, ok := readTyre(v); ok {
			r.profile.Wheel, r.profile.RearWheel = tyre, tyre
		}
	}
	if v, ok := r.top.Get("rear-wheel"); ok {
		if tyre, ok := readTyre(v); ok {
			r.profile.RearWheel = tyre
		}
	}
}

func readTyre(v strict.Value) (Tyre, bool) {
	text, ok := v.Scalar()
	if !ok {
		v.Want(tyreForm)
		return Tyre{}, false
	}
	tyre, err := ParseTyre(text)
	if err != nil {
		v.Problem("%s", err)
		return Tyre{}, false
	}
	return tyre, true
}

// sentences reads what each tweak is answered with where it makes no sense.
func (r *profileReader) sentences() {
	r.tweakWords("refuse", &r.profile.Refuse)
	r.tweakWords("no-change", &r.profile.NoChange)
}

func (r *profileReader) tweakWords(key string, into *map[string]string) {
	v, ok := r.top.Get(key)
	if !ok {
		return
	}
	words := map[string]string{}
	for _, f := range v.AnyTable().Fields {
		if strings.Trim(f.Name, "abcdefghijklmnopqrstuvwxyz-") != "" {
			f.Problem("%s; want the name of a tweak", strict.Quote(f.Name))
		} else if sentence, ok := f.Value.Text(longestSentence); ok {
			words[f.Name] = sentence
		}
	}
	*into = words
}
