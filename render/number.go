package render

import (
	"hubrule/internal/geom"
	"math"
	"strconv"
)

// Decimals is the number of decimals in written files: a micrometre is finer than any printer's dot.
const Decimals = 3

// thousandths returns v rounded to the written decimals, in thousandths.
func thousandths[U ~float64](v U) int64 { return int64(math.Round(float64(v) * 1000)) }

// Round returns v as it will be read back from a file. There is no negative zero.
func Round[U ~float64](v U) float64 { return float64(thousandths(v)) / 1000 }

// AppendNumber appends v as every file of ours spells numbers: at most three decimals, no exponent, no "-0".
func AppendNumber[U ~float64](b []byte, v U) []byte {
	return strconv.AppendFloat(b, Round(v), 'f', -1, 64)
}

// Number returns v as AppendNumber writes it.
func Number[U ~float64](v U) string { return string(AppendNumber(nil, v)) }

// RoundPoint returns q as it will be read back from a file.
func RoundPoint(q Point) Point { return Point{X: geom.MM(Round(q.X)), Y: geom.MM(Round(q.Y))} }
