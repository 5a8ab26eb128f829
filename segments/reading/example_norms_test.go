package reading_test

import (
	"fmt"

	"hubrule/segments"
	"hubrule/segments/reading"
)

func ExampleGather() {
	var readings []reading.Reading
	for _, height := range []float64{2.21, 2.24, 2.30} {
		r := reading.Reading{Name: fmt.Sprint("suv of ", height)}
		r.Figures[segments.Height] = reading.Value{Value: height, PM: .02, State: reading.Read}
		readings = append(readings, r)
	}
	suv, err := segments.Find("suv")
	if err != nil {
		fmt.Println(err)
		return
	}
	norms, err := reading.Gather(readings, reading.NormOptions{Name: "mine", Like: suv})
	if err != nil {
		fmt.Println(err)
		return
	}
	height := norms.Profile.Figures[segments.Height]
	fmt.Printf("%.2fw, %.2fw to %.2fw: %s\n", height.Value, height.Range.Lo, height.Range.Hi, height.Basis)
	// Output: 2.24w, 2.09w to 2.39w: M 3 readings: 2.216w / 2.24w / 2.288w, the range leaning on suv
}
