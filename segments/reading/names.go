package reading

// Name is the name of a mark, in the order in which they are set.
type Name uint8

// The marks. Tyres are marked on the outer edge of the rubber, far tyres on the inner rim that faces the camera.
const (
	TyreFront Name = iota
	TyreRear
	HubFront
	HubRear
	Ground
	FarFront
	FarRear
	Nose
	Tail
	Roof
	BeltLine
	SillEdge
	Lowest
	APillar
	GlassEnd
	FrontLamp
	RearLamp
	Cowl
	Header
	BonnetEdge
	Deck
	TailFoot
	Chin
	TailLow
	ArchFront
	ArchRear

	nameCount
)

// firstOfBody is the first mark that lies on the body; those before it fix the camera.
const firstOfBody = Nose

// NameInfo is what the table of marks knows of one name.
type NameInfo struct {
	Name        string
	Least, Most int    // how many points it has
	Where       string // where to set it, as an instruction
	// Of a mark on the body: how far inside half the width the point lies that is seen there, in wheels, and the standard deviation of
	// that. OnCentre: it lies on the centre plane instead, give or take the deviation.
	Inboard, Deviation float64
	OnCentre           bool
}

// The depths are judged by eye on drawn bodies: no published source gives them.
var nameInfos = [nameCount]NameInfo{
	TyreFront: {Name: "tyre-front", Least: 1, Most: 60, Where: "outer edge of the front tyre, rubber not rim: four points on the " +
		"front flank, four on the rear flank; never the lowest sixth, which is flattened"},
	TyreRear: {Name: "tyre-rear", Least: 1, Most: 60, Where: "outer edge of the rear tyre, likewise"},
	HubFront: {Name: "hub-front", Least: 1, Most: 1, Where: "centre of the front wheel; only where fewer than three points of " +
		"its tyre can be seen"},
	HubRear: {Name: "hub-rear", Least: 1, Most: 1, Where: "centre of the rear wheel, likewise"},
	Ground:  {Name: "ground", Least: 2, Most: 2, Where: "where the front and the rear tyre meet the road"},
	FarFront: {Name: "far-front", Least: 1, Most: 60, Where: "far front tyre, seen under the car: four points on the lower edge " +
		"of the side that faces you"},
	FarRear: {Name: "far-rear", Least: 1, Most: 60, Where: "far rear tyre, likewise"},
	Nose:    {Name: "nose", Least: 1, Most: 1, Where: "foremost point of the body", OnCentre: true, Deviation: .12},
	Tail:    {Name: "tail", Least: 1, Most: 1, Where: "rearmost point of the body", OnCentre: true, Deviation: .12},
	Roof:    {Name: "roof", Least: 1, Most: 1, Where: "highest point of the roof, without rails or aerial", Inboard: .38, Deviation: .10},
	BeltLine: {Name: "belt", Least: 1, Most: 8, Where: "lower edge of the side glass: one point ahead of mid-wheelbase, one " +
		"behind", Inboard: .05, Deviation: .04},
	SillEdge: {Name: "sill", Least: 1, Most: 1, Where: "lower edge of the body side, halfway between the " +
		"wheels", Inboard: .04, Deviation: .04},
	Lowest:     {Name: "lowest", Least: 1, Most: 1, Where: "lowest point of the underbody between the axles", Inboard: .35, Deviation: .30},
	APillar:    {Name: "pillar", Least: 2, Most: 2, Where: "A-pillar: its line at the belt, then at the roof", Inboard: .14, Deviation: .06},
	GlassEnd:   {Name: "glass-end", Least: 1, Most: 1, Where: "rearmost point of the side glass", Inboard: .16, Deviation: .07},
	FrontLamp:  {Name: "front-lamp", Least: 2, Most: 2, Where: "front lamp: its base, then its top", Inboard: .15, Deviation: .08},
	RearLamp:   {Name: "rear-lamp", Least: 2, Most: 2, Where: "rear lamp: its base, then its top", Inboard: .15, Deviation: .08},
	Cowl:       {Name: "cowl", Least: 1, Most: 1, Where: "where bonnet and screen meet in the silhouette", Inboard: .45, Deviation: .20},
	Header:     {Name: "header", Least: 1, Most: 1, Where: "where screen and roof meet in the silhouette", Inboard: .45, Deviation: .20},
	BonnetEdge: {Name: "bonnet-edge", Least: 1, Most: 1, Where: "front edge of the bonnet in the silhouette", Inboard: .45, Deviation: .30},
	Deck: {Name: "deck", Least: 1, Most: 1, Where: "top of the boot lid, or of the bed's side, above the rear " +
		"axle", Inboard: .25, Deviation: .20},
	TailFoot: {Name: "tail-foot", Least: 1, Most: 1, Where: "where rear screen and boot lid meet in the " +
		"silhouette", Inboard: .45, Deviation: .30},
	Chin:      {Name: "chin", Least: 1, Most: 1, Where: "lower front corner of the body", OnCentre: true, Deviation: .20},
	TailLow:   {Name: "tail-low", Least: 1, Most: 1, Where: "lower rear corner of the body", OnCentre: true, Deviation: .20},
	ArchFront: {Name: "arch-front", Least: 1, Most: 1, Where: "top of the front wheel arch", Inboard: .02, Deviation: .03},
	ArchRear:  {Name: "arch-rear", Least: 1, Most: 1, Where: "top of the rear wheel arch", Inboard: .02, Deviation: .03},
}

// pillarHeadInboard is how far inside half the width the upper mark of the A-pillar lies, in wheels, and its standard deviation.
const pillarHeadInboard, pillarHeadDeviation = .36, .08

// Info returns what is known of n. It panics on a name out of the table.
func (n Name) Info() NameInfo { return nameInfos[n] }

// On says what n lies on: "tyre", "ground" or "body".
func (n Name) On() string {
	switch {
	case n == Ground:
		return "ground"
	case n < firstOfBody:
		return "tyre"
	}
	return "body"
}

// String returns the name as marks files have it.
func (n Name) String() string { return nameInfos[n].Name }

// Names lists all marks in the order in which they are set.
func Names() []Name {
	all := make([]Name, nameCount)
	for i := range all {
		all[i] = Name(i)
	}
	return all
}
