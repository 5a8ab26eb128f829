package segments

import "hubrule/internal/geom"

// Nose holds the numbers of a nose: a bumper's face from the chin up to a break, the shelf behind that, and the face above it up to
// the bonnet's edge. A nose with a tip has no bumper of its own: its face runs from the tip.
type Nose struct {
	Step  geom.Wheels `number:"nose-step,0,.3"` // the face behind the bumper's upper edge
	Rise  geom.Wheels // of the shelf
	Top   geom.Wheels // the bumper's upper edge behind its foremost place
	Drop  geom.Wheels // the break below the lamp
	Tip   float64     `number:"nose-tip,0,.9"` // height of the tip as a share of the way from chin to bonnet-edge; 0: a bumper
	Bow   geom.Wheels // of the face
	Level float64     // share of the way from arch to nose that runs level under it
	Break Fillet      // where the bumper's face ends
	Block bool        // the bumper is a block of its own, over a skid panel
}

// Tail holds the numbers of a tail: a panel from the upper edge down to a bumper that stands proud of it.
type Tail struct {
	Step  geom.Wheels `number:"tail-step,-.2,.3"` // the panel ahead of the bumper's upper edge; less than 0: the panel is drawn in under a lip
	Rise  geom.Wheels // of the shelf
	Top   geom.Wheels // the bumper's upper edge ahead of its rearmost place
	Drop  geom.Wheels // the break below the lamp
	Bow   geom.Wheels // of the panel
	Level float64     // share of the way from arch to tail that runs level under it
	Block bool        // the bumper is a block of its own, a little higher than the front one
}

// Lens holds the numbers of a lamp's lens in the side view. Its outer edge is a piece of the upper line between two heights, its
// inner edge runs from there: heights in lamp-depths over the lamp's base, lengths and rises in wheels.
type Lens struct {
	Low, High            float64
	Upper, Lower         geom.Wheels // lengths of the upper and the lower edge
	UpperRise, LowerRise geom.Wheels // of these edges towards the inner end
	Reach                geom.Wheels // front: the outer edge ends at the latest this far behind the nose
	Corners              [2]geom.Wheels
	InCorner             bool // upright and column lenses stand in the body's corner, seen from front and rear
	Column               bool // reaches up to the belt
}

// The families, each number judged by eye. Words are everyday English: the trade has no fixed ones.
var (
	noseWords = []string{"soft", "upright", "wedge", "block"}
	tailWords = []string{"round", "shelf", "cut", "block"}
	lensWords = []string{"slit", "block", "upright", "column"}
	faceWords = []string{string(LowFace), string(UprightFace), string(TallFace)}
)

// Face is what the front and the rear view show.
type Face string

// The faces: a mouth under a low nose; a grille between lamps; a tall grille and, from the rear, lamps high in the corners.
const (
	LowFace     Face = "low"
	UprightFace Face = "upright"
	TallFace    Face = "tall"
)

// setNose gives s the nose of a family.
func (s *Shape) setNose(word string) {
	switch word {
	case "soft":
		s.Nose = Nose{Step: .012, Rise: .035, Top: .022, Drop: .14, Bow: .014, Level: .5, Break: fillet(.02, .02)}
		s.FaceLean, s.Fillets.Chin = .12, fillet(.24, .28)
	case "upright":
		s.Nose = Nose{Step: .024, Rise: .02, Top: .008, Drop: .16, Bow: .008, Level: .5, Break: fillet(.016, .02)}
		s.FaceLean, s.Fillets.Chin = .07, fillet(.18, .20)
	case "wedge":
		s.Nose = Nose{Tip: .42, Bow: .03, Level: .5, Break: fillet(.16, .20)}
		s.FaceLean, s.Fillets.Chin = .14, fillet(.18, .20)
	case "block":
		s.Nose = Nose{Step: .055, Rise: .008, Top: .002, Drop: .14, Bow: .003, Break: fillet(.024, .016), Block: true}
		s.FaceLean, s.Fillets.Chin = .05, fillet(.10, .08)
	}
}

// setTail gives s the tail of a family.
func (s *Shape) setTail(word string) {
	switch word {
	case "round":
		s.Tail = Tail{Step: .010, Rise: .04, Top: .02, Drop: .16, Level: .25, Bow: .012}
		s.Fillets.Heel = fillet(.16, .18)
	case "shelf":
		s.Tail = Tail{Step: .030, Rise: .018, Top: .006, Drop: .12, Level: .25, Bow: .008}
		s.Fillets.Heel = fillet(.14, .16)
	case "cut":
		s.Tail = Tail{Step: -.05, Rise: .12, Top: .012, Drop: .06, Level: .10}
		s.Fillets.Heel = fillet(.20, .24)
	case "block":
		s.Tail = Tail{Step: .09, Rise: .006, Top: .002, Drop: .16, Bow: .002, Block: true}
		s.Fillets.Heel = fillet(.08, .08)
	}
}

// frontLens and rearLens return the lenses of a family.
func frontLens(word string) Lens {
	switch word {
	case "slit":
		return Lens{Low: .30, High: .92, Upper: .56, Lower: .30, UpperRise: .10, LowerRise: .045, Reach: .26, Corners: [2]geom.Wheels{.05, .05}}
	case "block":
		return Lens{Low: 0, High: 1, Upper: .40, Lower: .30, UpperRise: .05, LowerRise: .03, Reach: .22, Corners: [2]geom.Wheels{.05, .06}}
	}
	return Lens{Low: -.05, High: 1.15, Upper: .16, Lower: .19, UpperRise: .01, Reach: .14, Corners: [2]geom.Wheels{.04, .04}, InCorner: true}
}

func rearLens(word string) Lens {
	switch word {
	case "slit":
		return Lens{Low: .25, High: .95, Upper: .40, Lower: .26, UpperRise: .02, Corners: [2]geom.Wheels{.04, .04}}
	case "block":
		return Lens{Low: 0, High: 1.25, Upper: .30, Lower: .20, LowerRise: .02, Corners: [2]geom.Wheels{.05, .05}}
	case "column":
		return Lens{Low: -.1, High: 3.2, Upper: .10, Lower: .17, LowerRise: .05, Corners: [2]geom.Wheels{.04, .05}, InCorner: true, Column: true}
	}
	return Lens{Low: -.1, High: 1.7, Upper: .13, Lower: .15, Corners: [2]geom.Wheels{.03, .03}, InCorner: true}
}

// LampReaches returns the half-widths left free between the front lamps and between the rear ones, as shares of half the width.
func (s Shape) LampReaches() (front, rear float64) {
	switch s.Face {
	case LowFace:
		front, rear = .54, .48
	case TallFace:
		front, rear = .62, .64
	default:
		front, rear = .56, .60
	}
	if s.FrontLens.InCorner {
		front *= 1.12
	}
	if s.RearLens.InCorner {
		rear = .80
	}
	return front, rear
}
