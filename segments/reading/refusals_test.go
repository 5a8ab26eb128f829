package reading

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"hubrule/segments"
)

// refusedMarks are marks that can be read; each row of the table below spoils them.
const refusedMarks = `kind: marks
size: [3000, 2000]
facing: left
tyre: 658mm
half-width: 1.4w
focal: 96
pm: 4
marks:
  tyre-front: [[943, 1253], [965, 1159], [933, 1068], [849, 1011], [752, 1012], [673, 1069], [639, 1161], [666, 1254]]
  tyre-rear: [[2341, 1245], [2364, 1152], [2331, 1057], [2250, 1003], [2152, 1002], [2072, 1060], [2037, 1152], [2063, 1248]]
  nose: [419, 1049]
  roof: [1499, 601]
`

// TestRefusals wants the exact words and the place of whatever a marks file can be refused for.
func TestRefusals(t *testing.T) {
	folder := folderWith(t, map[string]string{
		"text.jpg": "no picture", "phone.heic": "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic",
		"torn.png": "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00", "raw.dng": "II*\x00\x08\x00\x00\x00",
	})
	if err := syscall.Mkfifo(filepath.Join(folder, "pipe.jpg"), 0o600); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "side.yaml")
	var small bytes.Buffer
	if err := png.Encode(&small, image.NewGray(image.Rect(0, 0, 300, 200))); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "small.png"), small.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, tt := range refusals {
		text := refusedMarks
		for i := 0; i < len(tt.edits); i += 2 {
			if !strings.Contains(text, tt.edits[i]) {
				t.Fatalf("%q is not there", tt.edits[i])
			}
			text = strings.Replace(text, tt.edits[i], tt.edits[i+1], 1)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		file, err := LoadMarks(path, nil)
		if err == nil {
			_, err = file.Reading()
		}
		got := "nothing wrong"
		if err != nil {
			got = strings.ReplaceAll(err.Error(), folder+"/", "")
		}
		if got != tt.want {
			t.Errorf("%q:\n%s\nwant\n%s", tt.edits, got, tt.want)
		}
	}
}

// Of lamps and the pillar the lower mark counts first, in whichever order they stand.
func TestLowerMarkFirst(t *testing.T) {
	read := func(pillar, lamp string) Reading {
		edits := body("pillar", pillar, "front-lamp", lamp)
		path := filepath.Join(folderWith(t, map[string]string{"side.yaml": strings.Replace(refusedMarks, edits[0], edits[1], 1)}), "side.yaml")
		file, err := LoadMarks(path, nil)
		if err != nil {
			t.Fatal(err)
		}
		r, err := file.Reading()
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	one := read("[[1160, 832], [1511, 634]]", "[[484, 1025], [498, 973]]")
	two := read("[[1511, 634], [1160, 832]]", "[[498, 973], [484, 1025]]")
	if one.Figures != two.Figures || one.Figures[segments.LampDepth].Value < .1 {
		t.Errorf("%+v, turned round %+v", one.Figures, two.Figures)
	}
}

const front = "[[943, 1253], [965, 1159], [933, 1068], [849, 1011], [752, 1012], [673, 1069], [639, 1161], [666, 1254]]"

const rear = "[[2341, 1245], [2364, 1152], [2331, 1057], [2250, 1003], [2152, 1002], [2072, 1060], [2037, 1152], [2063, 1248]]"

// body returns edits that set a whole body, but for marks that lie elsewhere, given as name and points.
func body(elsewhere ...string) []string {
	marks := []string{"nose", "[419, 1049]", "tail", "[2687, 990]", "roof", "[1499, 601]", "belt", "[[1218, 832], [1807, 818]]",
		"sill", "[1503, 1235]", "pillar", "[[1160, 832], [1511, 634]]"}
	text := ""
	for i := 0; i < len(marks); i += 2 {
		if !slices.Contains(elsewhere, marks[i]) {
			text += "  " + marks[i] + ": " + marks[i+1] + "\n"
		}
	}
	for i := 0; i < len(elsewhere); i += 2 {
		text += "  " + elsewhere[i] + ": " + elsewhere[i+1] + "\n"
	}
	return []string{"  nose: [419, 1049]\n  roof: [1499, 601]\n", text}
}

// refusals are edits of the marks, as old and new text, and what is said of what comes out.
var refusals = []struct {
	edits []string
	want  string
}{
	// The file.
	{[]string{"kind: marks", "kind: mark"},
		"side.yaml:1:7: kind: mark; want marks"},
	{[]string{"kind: marks", "kind: [marks"},
		"side.yaml:2:1: not YAML: did not find expected ',' or ']'"},
	{[]string{refusedMarks, ""},
		"side.yaml:1:1: empty; want a table of keys and values"},
	{[]string{"facing: left", "faces: left"},
		"side.yaml:1:1: no facing; want facing: left or right, where the nose points\n" +
			"side.yaml:3:1: unknown key \"faces\"; want kind, picture, size, facing, student, tyre, rear-tyre, wheelbase, like, half-width, track, round, focal, distance, eye-height, cropped, stands-on, pm, on-sheet, hidden or marks"},
	{[]string{"pm: 4", "pm: 4\nhidden: [far-fron, lowest, lowest, nose, tyre-rear]"},
		"side.yaml:8:10: hidden[1]: unknown mark \"far-fron\"; did you mean \"far-front\"?\n" +
			"side.yaml:8:28: hidden[3]: lowest stands twice; want it once\n" +
			"side.yaml:8:36: hidden[4]: nose is marked; want it hidden or marked"},
	{[]string{"facing: left", "facing: up"},
		"side.yaml:3:9: facing: unknown way \"up\"; want left or right"},
	{[]string{"  roof", "  rooof"},
		"side.yaml:12:3: marks: unknown mark \"rooof\"; did you mean \"roof\"?"},
	{[]string{"pm: 4", "pm: 4\npm: 5"},
		"side.yaml:8:1: \"pm\" stands twice, first on line 7; want it once"},
	{[]string{"  roof", "  nose"},
		"side.yaml:12:3: marks: \"nose\" stands twice, first on line 11; want it once"},
	{[]string{"[1499, 601]", "[.nan, 601]"},
		"side.yaml:12:10: marks.roof[1]: .nan; want a number, -100000 to 100000"},
	{[]string{"[1499, 601]", "[1499, 1e999]"},
		"side.yaml:12:16: marks.roof[2]: 1e999; want a number, -100000 to 100000"},
	{[]string{"[1499, 601]", "[1499,5, 601]"},
		"side.yaml:12:9: marks.roof: a list; want 2 values, not 3; is a decimal comma among them? write a point"},
	{[]string{"[1499, 601]", "[x, y]"},
		"side.yaml:12:9: marks.roof: [x, y] stands for the mark; want two numbers, pixels from the picture's top left corner"},
	{[]string{"[1499, 601]", "[50%, 601]"},
		"side.yaml:12:10: marks.roof[1]: 50%; want pixels from the picture's top left corner"},
	{[]string{"[1499, 601]", "[1499]"},
		"side.yaml:12:9: marks.roof: a list; want 2 values, not 1"},
	{[]string{"[1499, 601]", "{at: [1499, 601], pm: 0, inboard: 3w}"},
		"side.yaml:12:31: marks.roof.pm: 0; want 0.1 to 200\n" +
			"side.yaml:12:43: marks.roof.inboard: 3w; want -0.2w to 2w"},
	{[]string{"[1499, 601]", "[[1499, 601], [1500, 602]]"},
		"side.yaml:12:9: marks.roof: a list of points; want one: highest point of the roof, without rails or aerial"},
	{[]string{"focal: 96", "focal: 9"},
		"side.yaml:6:8: focal: 9; want 10 to 1200"},
	{[]string{"focal: 96", "focal: 1201"},
		"side.yaml:6:8: focal: 1201; want 10 to 1200"},
	{[]string{"focal: 96", "distance: 16"},
		"side.yaml:6:11: distance: 16; want a length in w, mm, cm, m or in, like 2.35w: the unit is missing"},
	{[]string{"focal: 96", "like: suvv"},
		"side.yaml:6:7: like: unknown segment \"suvv\"; did you mean \"suv\"?"},
	{[]string{"1.4w", "1.4m"},
		"side.yaml:5:13: half-width: 1.4m; want a length in w, like 1.4w"},
	{[]string{"tyre: 658mm", "tyre: 225/50"},
		"side.yaml:4:7: tyre: 225/50; want a tyre like 205/55R16, LT265/70R17, 185R14 or 31x10.50R15, or a diameter like 739mm"},
	{[]string{"tyre: 658mm", "tyre: 100mm\nrear-tyre: 658mm\nwheelbase: 2800mm\ndistance: 16m"},
		"side.yaml:4:7: tyre: 100mm; want a diameter of 200mm to 3000mm"},
	{[]string{"tyre: 658mm", "rear-tyre: 658mm"},
		"side.yaml:4:12: rear-tyre: a rear tyre alone; want tyre as well, the front one"},
	{[]string{"size: [3000, 2000]\n", ""},
		"side.yaml:1:1: no size; want size: [width, height] of the picture in pixels, or picture: and its path"},
	{[]string{"size: [3000, 2000]", "size: [3000, 20001]"},
		"side.yaml:2:14: size[2]: 20001; want 100 to 20000"},
	{[]string{"half-width: 1.4w", "round: 0.2w"},
		"side.yaml:5:8: round: 0.2w; want a table like {nose: 0.25w, tail: 0.12w, crown: 0.06w}"},
	{[]string{"half-width: 1.4w", "round: {hood: 0.2w}"},
		"side.yaml:5:9: round: unknown end \"hood\"; want nose, tail or crown"},
	{[]string{"half-width: 1.4w", "stands-on: road"},
		"side.yaml:5:12: stands-on: road; want circles"},
	{[]string{"half-width: 1.4w", "on-sheet: {paper: A9, left: [0, 1000]}"},
		"side.yaml:5:11: on-sheet: no top; want top: [x, y], the inner end of the centring mark on that side\n" +
			"side.yaml:5:11: on-sheet: no right; want right: [x, y], the inner end of the centring mark on that side\n" +
			"side.yaml:5:11: on-sheet: no bottom; want bottom: [x, y], the inner end of the centring mark on that side\n" +
			"side.yaml:5:19: on-sheet.paper: unknown paper \"A9\"; want A0, A1, A2, A3, A4, A5, tabloid, legal or letter"},
	{[]string{"half-width: 1.4w", "on-sheet: {paper: A3, left: [10, 900], top: [1500, 20], right: [20, 900], bottom: [1500, 1990]}"},
		"side.yaml:5:11: on-sheet: the centring marks make no page; want left, top, right and bottom as the page shows them, upright"},
	// The picture.
	{[]string{"size: [3000, 2000]", "picture: none.jpg"},
		"side.yaml:2:10: picture: none.jpg: no such file or directory"},
	{[]string{"size: [3000, 2000]", "picture: text.jpg"},
		"side.yaml:2:10: picture: not a picture; want PNG, JPEG or WebP"},
	{[]string{"size: [3000, 2000]", "picture: torn.png"},
		"side.yaml:2:10: picture: a PNG that ends within its header"},
	{[]string{"size: [3000, 2000]", "picture: phone.heic"},
		"side.yaml:2:10: picture: HEIC, which is not read; save it as JPEG or PNG"},
	{[]string{"size: [3000, 2000]", "picture: raw.dng"},
		"side.yaml:2:10: picture: TIFF or a camera's raw file, which is not read; save it as JPEG or PNG"},
	{[]string{"size: [3000, 2000]", "picture: pipe.jpg"},
		"side.yaml:2:10: picture: not a regular file; want a picture: PNG, JPEG or WebP"},
	{[]string{"size: [3000, 2000]", "picture: ."},
		"side.yaml:2:10: picture: a directory; want a picture: PNG, JPEG or WebP"},
	{[]string{"size: [3000, 2000]", "picture: small.png\nsize: [3000, 2000]"},
		"side.yaml:3:7: size: [3000, 2000], but small.png has [300, 200]; want the size of the upright picture"},
	// The marks.
	{[]string{front, "[[943, 1253], [965, 1159]]"},
		"side.yaml:9:15: marks.tyre-front: 2 points; want at least 3 of its edge, better eight, or hub-front and one of the edge"},
	{[]string{front, "[943, 1253]"},
		"side.yaml:9:15: marks.tyre-front: 1 point; want at least 3 of its edge, better eight, or hub-front and one of the edge"},
	{[]string{"  tyre-front: " + front + "\n", ""},
		"side.yaml:9:3: marks: tyre-front: 0 points; want at least 3 of its edge, better eight, or hub-front and one of the edge"},
	{[]string{front, "[[943, 1253], [953, 1159], [963, 1065]]"},
		"side.yaml:9:15: marks.tyre-front: the points lie on a line; want them round the tyre"},
	{[]string{front, "[[943, 1253], [965, 1159], [943, 1253]]"},
		"side.yaml:9:15: marks.tyre-front: the points lie on a line; want them round the tyre\n" +
			"side.yaml:9:42: marks.tyre-front[3]: [943, 1253] stands twice; want each point once"},
	{[]string{front, "[[849, 1011], [830, 1004], [810, 1001], [790, 1001], [770, 1005]]"},
		"side.yaml:9:15: marks.tyre-front: the points span 41° of the tyre; want at least 60°, better 200°"},
	{[]string{front, "[[2241, 1145], [2264, 1152], [2231, 1157], [2210, 1103]]"},
		"side.yaml:10:14: marks.tyre-rear: one tyre lies inside the other"},
	{[]string{front, rear, rear + "\n  nose", front + "\n  nose"},
		"side.yaml:10:14: marks.tyre-rear: the rear tyre lies ahead of the front one on a picture that faces left; want the other tyre, or facing: right"},
	{[]string{rear, "[[1041, 1245], [1364, 1152], [1331, 1057], [1250, 1003], [1152, 1002], [1072, 1060], [1037, 1152], [1063, 1248]]"},
		"side.yaml:10:14: marks.tyre-rear: 0.20 wheels between the tyres; want at least 0.3"},
	{[]string{"[1499, 601]", "[3001, 601]"},
		"side.yaml:12:9: marks.roof: [3001, 601] lies outside the picture; want 0 to 3000 and 0 to 2000"},
	{[]string{"nose: [419, 1049]", "nose: [2719, 1049]"},
		"side.yaml:11:9: marks.nose: the nose lies behind the front wheel on a picture that faces left; want facing: right, or the mark at the other end"},
	// What no vehicle is: marks on the wrong thing.
	{body("roof", "[1499, 1235]", "sill", "[1503, 601]"),
		"side.yaml:15:9: marks.roof: greenhouse (belt to roof at mid-wheelbase) comes out at -1.378w, ± 0.089w; want 0.05w to 3w; are roof and sill exchanged?"},
	{body("roof", "[1499, 830]", "belt", "[[1218, 601], [1807, 601]]"),
		"side.yaml:15:9: marks.roof: greenhouse (belt to roof at mid-wheelbase) comes out at -0.733w, ± 0.065w; want 0.05w to 3w; are roof and belt exchanged?"},
	{body("belt", "[[1218, 1235], [1807, 1235]]", "sill", "[1503, 825]"),
		"side.yaml:15:9: marks.belt: body-side (sill to belt at mid-wheelbase) comes out at -1.253w, ± 0.018w; want 0.1w to 4w; are belt and sill exchanged?"},
	{body("sill", "[1503, 1370]"),
		"side.yaml:16:9: marks.sill: sill (ground to the lower edge of the body side) comes out at -0.145w, ± 0.023w; want 0.02w to 2w"},
	{body("nose", "[780, 1049]", "tail", "[2204, 990]"),
		"side.yaml:15:9: marks.nose: front-overhang (nose ahead of the front tyre's front edge) comes out at -0.313w, ± 0.058w; want 0w to 4w; where nothing stands ahead of the tyre, mark the tyre's own edge\n" +
			"side.yaml:16:9: marks.tail: rear-overhang (tail behind the rear tyre's rear edge) comes out at -0.413w, ± 0.052w; want 0w to 6w; where nothing stands behind the tyre, mark the tyre's own edge"},
	{body("glass-end", "[700, 870]"),
		"side.yaml:17:14: marks.glass-end: it lies 0.318w ahead of the front axle; want the end of the glass, behind the A-pillar"},
	{body("glass-end", "[960, 850]"),
		"side.yaml:17:14: marks.glass-end: it lies 0.615w ahead of the A-pillar; want it behind"},
	{body("front-lamp", "[[2600, 1000], [2600, 950]]", "rear-lamp", "[[484, 1025], [498, 973]]"),
		"side.yaml:17:15: marks.front-lamp: it lies 4.999w behind the front tyre; want it ahead; are front-lamp and rear-lamp exchanged?\n" +
			"side.yaml:18:14: marks.rear-lamp: it lies 4.758w ahead of the rear tyre; want it behind; are front-lamp and rear-lamp exchanged?"},
	{body("arch-front", "[2200, 960]", "arch-rear", "[800, 960]"),
		"side.yaml:17:15: marks.arch-front: it lies 2.132w behind mid-wheelbase; want it above the front wheel; are arch-front and arch-rear exchanged?\n" +
			"side.yaml:18:14: marks.arch-rear: it lies 2.135w ahead of mid-wheelbase; want it above the rear wheel; are arch-front and arch-rear exchanged?"},
	{body("pillar", "[[1160, 832], [1060, 820]]"),
		"side.yaml:16:11: marks.pillar: pillar-rake (A-pillar from the horizontal) comes out at -6°, ± 3.6°; want 10° to 110°"},
	{body("belt", "[[1218, 832], [1807, 1200]]"),
		"side.yaml:16:9: marks.belt: belt-rise (belt line rising rearwards, turned about mid-wheelbase) comes out at -32.4°, ± 0.5°; want -20° to 20°; do all its points lie on the lower edge of the side glass?"},
	{body("header", "[1400, 540]"),
		"side.yaml:17:11: marks.header: header-drop (header below the roof) comes out at -0.187w, ± 0.041w; want 0w to 1.5w; are roof and header exchanged?"},
	{[]string{front, "[[800, 1100], [819, 1119], [800, 1138], [781, 1119]]"},
		"side.yaml:9:15: marks.tyre-front: the tyre is 38 pixels wide; want at least 40"},
	{[]string{"nose: [419, 1049]", "pillar: [419, 1049]"},
		"side.yaml:11:11: marks.pillar: one point; want 2: A-pillar: its line at the belt, then at the roof"},
	{[]string{"nose: [419, 1049]", "nose: 419"},
		"side.yaml:11:9: marks.nose: 419; want a list of 2 in [ ]"},
	{[]string{"nose: [419, 1049]", "far-front: [[.nan, 3]]"},
		"side.yaml:11:16: marks.far-front[1][1]: .nan; want a number, -100000 to 100000"},
	// The fit.
	{[]string{front, "[[1271, 1122], [1277, 1068], [1258, 1020], [1222, 993], [1199, 993], [1164, 1016], [1146, 1063], [1152, 1117]]",
		rear, "[[1886, 1151], [1892, 1093], [1870, 1040], [1828, 1011], [1801, 1010], [1760, 1036], [1738, 1087], [1744, 1145]]", "focal: 96", "focal: 72",
		"nose: [419, 1049]", "far-front: [[1439, 1119], [1467, 1145], [1511, 1147], [1539, 1123]]\n  far-rear: [[2023, 1146], [2055, 1174], [2107, 1177], [2140, 1151]]"},
		"side.yaml:1:1: the picture is taken 40° from square-on; want at most 35°"},
	{[]string{front, "[[933.1, 1355.6], [936.6, 1162], [770.3, 1059.7], [612.8, 1158.9], [621.7, 1348.3]]",
		rear, "[[2416.9, 1348.5], [2424.7, 1157], [2267.4, 1060.6], [2104.3, 1160.4], [2107, 1354.4]]", "pm: 4", "pm: 1.96", "658mm", "739mm"},
		"side.yaml:1:1: the tyres' ellipses give a wheelbase of 4.05 wheels, the camera 3.99; look whether all marks lie on the same edge of the rubber, whether the tyres are alike (rear-tyre), and whether the picture's straight lines are straight"},
	{[]string{"[965, 1159]", "[1065, 1159]"},
		"side.yaml:9:29: marks.tyre-front[2]: the marks disagree: this one lies 63 pixels from where the others put it; look at it again, or give it a larger pm"},
	{[]string{"[2250, 1003]", "[2250, 953]"},
		"side.yaml:10:57: marks.tyre-rear[4]: the marks disagree: this one lies 32 pixels from where the others put it; look at it again, or give it a larger pm"},
}
