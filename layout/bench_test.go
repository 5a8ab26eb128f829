package layout

import "testing"

func BenchmarkSolveThreePins(b *testing.B) {
	brief := brief(b, "suv", "height", "2.2w", "length", "4600mm", "pillar-rake", "30")
	for b.Loop() {
		if _, err := Solve(brief); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkClash(b *testing.B) {
	brief := brief(b, "suv", "wheels-between", "3", "length", "3.4m", "front-overhang", "0.55w", "rear-overhang", "0.8w", "height", "2.3w")
	for b.Loop() {
		if _, err := Solve(brief); err == nil {
			b.Fatal("no clash")
		}
	}
}
