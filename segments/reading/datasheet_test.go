package reading

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"hubrule/segments"
)

// A data sheet as a person writes it: quoted cells, blanks, an empty cell, empty rows, other separators.
func TestDataSheet(t *testing.T) {
	const plain = "name,tyre,rear-tyre,wheelbase mm,length mm,height mm,pillar-rake deg,greenhouse-to-body,wheels-between,pm mm\n" +
		"\"One, the first\",205/55R16,,2528,4300,,32,0.5,,\n" +
		",,,,,,,,,\n" +
		"Two,632mm,645mm,2.528m,,,,,3,10\n"
	good := strings.Replace(plain, "2.528m", "2528", 1)
	for _, text := range []string{
		good, "\ufeff" + good, strings.ReplaceAll(good, "\n", "\r\n"), strings.TrimSuffix(good, "\n"),
		strings.ReplaceAll(strings.Replace(good, "\"One, the first\"", "\"One; the first\"", 1), ",", ";"),
		strings.ReplaceAll(strings.Replace(good, "\"One, the first\"", "One, the first", 1), ",", "\t"),
		strings.ReplaceAll(strings.ToUpper(good[:strings.Index(good, "\n")]), "-MM", " mm") + good[strings.Index(good, "\n"):],
	} {
		if strings.Contains(text, "\t") {
			text = strings.Replace(text, "One\t the", "One, the", 1)
		}
		got, err := parseDataSheet("folder/sheet.csv", []byte(text))
		if err != nil || len(got) != 2 {
			t.Fatalf("%q: %d readings, %v", text, len(got), err)
		}
		one, two := got[0], got[1]
		if one.Source != "sheet.csv:2" || two.Source != "sheet.csv:4" || !strings.HasPrefix(one.Name, "One") || two.Name != "Two" {
			t.Errorf("%q and %q from %q and %q", one.Name, two.Name, one.Source, two.Source)
		}
		if one.Skew != None || one.Camera != nil || one.Wheel.Name != "205/55R16" || one.RearWheel.Diameter != 0 ||
			two.RearWheel.Diameter != 645 {
			t.Errorf("%+v", one)
		}
		for _, c := range []struct {
			r    Reading
			f    segments.Figure
			want Value
		}{
			{one, segments.Wheelbase, Value{4, .007911, Read, ""}},
			{one, segments.Height, Value{}},
			{one, segments.PillarRake, Value{32, .5, Read, ""}},
			{one, segments.GreenhouseToBody, Value{.5, .01, Read, ""}},
			{two, segments.WheelsBetween, Value{3, .015823, Read, ""}},
			{two, segments.Wheelbase, Value{4, .015823, Read, ""}},
		} {
			if c.r.Figures[c.f] != c.want {
				t.Errorf("%s %s: %+v, want %+v", c.r.Name, c.f, c.r.Figures[c.f], c.want)
			}
		}
	}
}

// Every unit says the same length.
func TestDataSheetUnits(t *testing.T) {
	for head, cell := range map[string]string{"mm": "2540", "cm": "254", "m": "2.54", "in": "100", "w": "4", "(mm)": "2540"} {
		got, err := parseDataSheet("x.csv", []byte("name,tyre,wheelbase "+head+"\na,635mm,"+cell))
		if err != nil || got[0].Figures[segments.Wheelbase].Value != 4 {
			t.Errorf("%s %s: %v, %v", cell, head, got, err)
		}
	}
}

// Each thing that can be wrong with a data sheet, in its exact words.
func TestDataSheetProblems(t *testing.T) {
	columns := strings.Join(columnNames()[:len(columnNames())-1], ", ") + " or rear-lamp"
	row := func(cells string) string { return "name,tyre,wheelbase mm,sill w,pillar-rake deg\n" + cells }
	for _, tt := range []struct {
		text string
		want []string
	}{
		{"", []string{"1:1: empty; want a first row that names the columns"}},
		{"\n\n", []string{"1:1: empty; want a first row that names the columns"}},
		{"name,wheelbase mm\n", []string{"1:1: no rows; want one for each vehicle below the names of the columns"}},
		{"tyre,wheelbase mm\n16,2", []string{
			"1:1: no column name; want name, tyre and figures with their units, like name,tyre,wheelbase mm,height mm"}},
		{"name,tyre\na,205/55R16", []string{"1:1: no figure; want some with their units, like wheelbase mm"}},
		{"name,wheelbse mm,roof mm,colour,wheel,form\n", []string{
			`1:6: unknown column "wheelbse"; did you mean "wheelbase"?`,
			`1:18: unknown figure "roof"; did you mean "height"?`,
			`1:26: unknown column "colour"; want ` + columns,
			"1:33: wheel; want tyre",
			`1:39: unknown column "form"; want one of those above`}},
		{"name,height_mm,Wheels between,pillar rake (deg),front_overhang_axle_m\n", []string{
			`1:6: unknown column "height_mm"; did you mean "height mm"?`,
			`1:16: unknown column "Wheels between"; did you mean "wheels-between"?`,
			`1:31: unknown column "pillar rake (deg)"; did you mean "pillar-rake deg"?`,
			`1:49: unknown column "front_overhang_axle_m"; did you mean "front-overhang-axle m"?`}},
		{"name,wheelbase,wheelbase-pm,sill,height-pm,belt w,belt-pm\n", []string{
			"1:29: sill: the unit is missing; want sill mm, cm, m, in or w",
			"1:34: height-pm without height; want that column as well, without a unit",
			"1:51: belt-pm without belt; want that column as well, without a unit"}},
		{"name,wheelbase,wheelbase-pm,height,height-pm\na,4.1,,9,.1\nb,,.1,\"2,2\",.1\nc,4.1,-1,2,.1", []string{
			"2:7: wheelbase-pm: nothing; want a ± of 0 or more", "2:8: height: 9; want 1w to 5w",
			"3:4: wheelbase-pm without wheelbase; want both or neither", "3:7: height: 2,2; want a number, with a decimal point",
			"4:7: wheelbase-pm: -1; want a ± of 0 or more"}},
		{"name,tyre,wheelbase mm,length mm,belt w,height w\na,632mm,4200,2600,,\nb,632mm,2600,,2.2,1.3\nc,632mm,2600,4200,1.3,2.2", []string{
			"2:14: length mm: 2600, but wheelbase mm is 4200; want it larger; are the two exchanged?",
			"3:19: height w: 1.3, but belt w is 2.2; want it larger; are the two exchanged?"}},
		{"name,,wheelbase,height furlong,wheels-between w,pillar-rake,belt-rise w,pm\n", []string{
			"1:6: a column without a name; want one, like wheelbase mm",
			"1:7: wheelbase: the unit is missing; want wheelbase mm, cm, m, in or w",
			`1:17: "height furlong"; want height mm, cm, m, in or w`,
			`1:32: "wheels-between w" has no unit; want wheels-between alone`,
			"1:49: pillar-rake: the unit is missing; want pillar-rake deg",
			`1:61: "belt-rise w"; want belt-rise deg`,
			"1:73: pm: the unit is missing; want pm mm, cm, m, in or w"}},
		{"name,height mm,Height w,name,tyre mm\n", []string{
			"1:16: height stands twice, first in column 2; want it once",
			"1:25: name stands twice, first in column 1; want it once",
			`1:30: "tyre mm" has no unit; want tyre alone`}},
		{row("a,205/55R16,2700,.3\nb,205/55R16,2700,.3,30,1\n"), []string{
			"2:1: 4 cells; want 5, as on line 1", "3:1: 6 cells; want 5, as on line 1"}},
		{row("a,205/55R16,2700,.3,30\n,205/55R16,2700,.3,30\na,205/55R16,2700,.3,30"), []string{
			"3:1: nothing; want a name of 1 to 80 characters on one line", `4:1: "a" stands twice, first on line 2; want another name`}},
		{row("\"a\nb\",205/55R16,2700,.3,30"), []string{`2:1: "a\nb"; want a name of 1 to 80 characters on one line`}},
		{row("a,205/55R16,NaN,1e3,-"), []string{
			"2:13: wheelbase mm: NaN; want a number", "2:17: sill w: 1e3; want a number", "2:21: pillar-rake: -; want a number"}},
		{row("é,205/55R16,2700mm,\"0,3\",08"), []string{
			"2:13: wheelbase mm: 2700mm; want a number, without a unit: it stands above",
			"2:20: sill w: 0,3; want a number, with a decimal point", "2:26: pillar-rake: 08; want a number, without leading zeros"}},
		{row("a,205/55R16,27,5,95"), []string{
			"2:13: wheelbase: 27mm; want 1.5w to 13w (948mm to 8216mm)", "2:16: sill: 5w; want 0.02w to 2w",
			"2:18: pillar-rake: 95; want 15 to 85"}},
		{row("a,205/5R16,2700,.3,30"), []string{
			"2:3: tyre: 205/5R16; want a tyre like 205/55R16, LT265/70R17, 185R14 or 31x10.50R15, or a diameter like 739mm"}},
		{row("a,,2700,.3,30"), []string{"2:4: wheelbase mm: 2700 without a tyre; want one in the column tyre, or lengths in w"}},
		{row("a,205/55R16,,,"), []string{"2:1: no figure; want at least one"}},
		{row("a,205/55R16,27\"00,.3,30"), []string{`2:15: not CSV: bare " in non-quoted-field`}},
		{row("a,205/55R16,\"2700,.3,30"), []string{`2:24: not CSV: extraneous or missing " in quoted-field`}},
		{row("a,205/55R16,\x00,.3,30"), []string{"2:13: control character U+0000; want plain text"}},
		{row("a,205/55R16,\xff,.3,30"), []string{"2:13: not UTF-8; save it as a text file in UTF-8"}},
		{"name,tyre,rear-tyre,sill w,pm mm\na,,632mm,.3,\nb,632mm,300mm,.3,-1\nc,632mm,,.3,x", []string{
			"2:4: rear-tyre without a front tyre; want one in the column tyre",
			"3:9: rear-tyre: 300mm; want half to twice the front one, 632mm",
			"3:18: pm mm: -1; want a ± of 0 to 500 mm", "4:13: pm mm: x; want a ± of 0 to 500 mm"}},
		{"name,sill w\n" + strings.Repeat("a,.3\n", 10_001), []string{"10002:1: 10001 rows; want at most 10000"}},
		{"name,sill w\n" + strings.Repeat(" ", 1_000_000), []string{"1:1: larger than 1000000 bytes; want less"}},
	} {
		got, err := parseDataSheet("x.csv", []byte(tt.text))
		var lines []string
		if err != nil {
			lines = strings.Split(err.Error(), "\n")
		}
		want := tt.want
		for i, line := range want {
			want[i] = "x.csv:" + line
		}
		if !slices.Equal(lines, want) {
			t.Errorf("%.80q:\n got %s\nwant %s", tt.text, strings.Join(lines, "\n     "), strings.Join(want, "\n     "))
		}
		_ = got
	}
}

// What is written of readings, a figure and its ± in wheels, degrees and as they are, is read as it was.
func TestWrittenReadings(t *testing.T) {
	want := readCase(t, "plain-noisy")
	head, row := "name,tyre", want.Name+","+want.Wheel.String()
	for f, v := range want.Figures {
		head += fmt.Sprintf(",%s,%s-pm", segments.Figure(f), segments.Figure(f))
		if v.State == Read {
			row += fmt.Sprintf(",%.6f,%.6f", v.Value, v.PM)
		} else {
			row, want.Figures[f] = row+",,", Value{}
		}
		want.Figures[f].MostFrom = ""
	}
	for _, tyre := range []string{"wheel", "rear-wheel", "form"} { // which are no measures
		head = strings.Replace(head, ","+tyre+","+tyre+"-pm", "", 1)
		row = strings.Replace(row, ",,", "", 1)
	}
	got, err := parseDataSheet("x.csv", []byte(head+"\n"+row+"\n"))
	if err != nil || len(got) != 1 || got[0].Figures != want.Figures || got[0].Wheel != want.Wheel {
		t.Errorf("%v, %v; want %v", got, err, want.Figures)
	}
}

// A row whose numbers do not add up says so.
func TestDataSheetContradictions(t *testing.T) {
	const head = "name,tyre,wheelbase mm,length mm,front-overhang-axle mm,rear-overhang-axle mm\n"
	for _, tt := range []struct {
		length string
		want   []string
	}{
		{"4300", nil},
		{"4308", nil},
		{"4400", []string{"length is 6.962w, and follows as 6.804w from wheelbase, front-overhang-axle, rear-overhang-axle"}},
	} {
		got, err := parseDataSheet("x.csv", []byte(head+"a,205/55R16,2600,"+tt.length+",800,900"))
		if err != nil || !slices.Equal(got[0].Messages, tt.want) {
			t.Errorf("%s: %q, %v; want %q", tt.length, got[0].Messages, err, tt.want)
		}
	}
	// a ± of 0 is no smaller than what is rounded off
	got, err := parseDataSheet("x.csv", []byte(strings.Replace(head, "tyre,", "tyre,pm mm,", 1)+"a,205/55R16,0,2600,4300,800,900"))
	if err != nil || got[0].Messages != nil {
		t.Errorf("pm 0: %v, %v", got, err)
	}
}

// The ± of a figure may stand in the first column.
func TestFirstColumnPM(t *testing.T) {
	got, err := parseDataSheet("x.csv", []byte("height-pm,height,tyre,name\n.1,2.2,205/55R16,a\n"))
	if err != nil || got[0].Figures[segments.Height].PM != .1 {
		t.Errorf("%+v, %v; want ± .1", got, err)
	}
}

// FuzzDataSheet: no data sheet makes the reader panic; what it accepts can be drawn.
func FuzzDataSheet(f *testing.F) {
	for _, text := range []string{
		"name,tyre,wheelbase mm\na,205/55R16,2700\n", "name;tyre;sill w\n\"a\nb\";632mm;.3", "\ufeffname\tpm in\tbelt cm\r\n",
		"name,form,wheelbase,pillar-rake deg\na,,NaN,\xff", "name,belt,belt-pm,height,height-pm\na,1.4,.1,2.2,.1", "name,tyre,rear-tyre,length in,greenhouse-to-body\na,31x10.50R15,,160,.5",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		readings, err := parseDataSheet("x.csv", data)
		if err != nil {
			return
		}
		for _, r := range readings[:min(len(readings), 3)] {
			if p, _, err := r.Profile(); err == nil {
				planOf(t, p)
			}
		}
	})
}
