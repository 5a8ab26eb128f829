package report_test

import (
	"fmt"

	"hubrule/internal/report"
	"hubrule/segments"
)

func ExampleSolve() {
	suv, err := segments.Find("suv")
	if err != nil {
		fmt.Println(err)
		return
	}
	b := segments.Brief{Profile: suv}
	for f, text := range map[segments.Figure]string{segments.Length: "4w", segments.WheelsBetween: "3"} {
		p, err := segments.ParsePin(f, text)
		if err != nil {
			fmt.Println(err)
			return
		}
		p.Origin.Place = "pin." + f.String()
		b.Pins = append(b.Pins, p)
	}
	_, err = report.Solve(b)
	fmt.Println(err)
	// Output:
	// suv: these cannot hold together:
	//   wheels-between 3  pin.wheels-between  1.94 would work
	//   length 4w         pin.length          5.06w would work
	//   against: front-overhang at least 0
	//   against: rear-overhang at least 0
}
