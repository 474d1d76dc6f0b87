package units

import (
	"math"
	"testing"
)

// FuzzQuantities holds comparing, rounding and converting to what they promise, for any number.
func FuzzQuantities(f *testing.F) {
	for _, x := range []float64{0, 1, -1, 54.9, 55, 55.000000001, 1e-300, 1e300, 5e-324, math.MaxFloat64, math.Inf(1), math.NaN(), 0.1 + 0.2} {
		f.Add(x, 55.0, 6)
		f.Add(x, x, 9)
	}
	f.Fuzz(func(t *testing.T, x, limit float64, digits int) {
		q, l := Mass(x), Mass(limit)
		if math.IsNaN(x) || math.IsInf(x, 0) || math.IsNaN(limit) || math.IsInf(limit, 0) {
			if StrictlyBelow(q, l) && AtLeast(q, l) {
				t.Fatal("below and not below at once")
			}
			return
		}
		if StrictlyBelow(q, l) == AtLeast(q, l) {
			t.Fatalf("%v is below %v, or it is not", x, limit)
		}
		if StrictlyBelow(q, l) && !AtMost(q, l) {
			t.Fatalf("%v is below %v and not at most it", x, limit)
		}
		digits = 1 + int(uint(digits)%15)
		near := float64(Significant(q, digits))
		if math.IsInf(near, 0) != (math.Abs(x) > 1e307 && math.IsInf(near, 0)) || math.IsNaN(near) {
			t.Fatalf("%v rounds to %v", x, near)
		}
		if again := float64(Significant(Mass(near), digits)); again != near {
			t.Fatalf("%v rounds to %v and then to %v", x, near, again)
		}
		if math.Abs(x) > 1e-290 && math.Abs(x) < 1e290 && math.Abs(near-x) > math.Abs(x)*math.Pow10(1-digits) {
			t.Fatalf("%v rounded to %d digits is %v", x, digits, near)
		}
		if down := float64(SignificantDown(q, digits)); math.Abs(x) < 1e290 && math.Abs(down) > math.Abs(x)*(1+1e-8) {
			t.Fatalf("%v rounded toward zero is %v", x, down)
		}
		if back := q.In(Pound) * Pound.SI(); math.Abs(x) > 1e-290 && math.Abs(x) < 1e290 && math.Abs(back-x) > 1e-12*math.Abs(x) {
			t.Fatalf("%v comes back from pounds as %v", x, back)
		}
		if whole := Ceil(x); math.Abs(x) < 1e15 && (float64(whole) < x-1e-6*math.Max(1, math.Abs(x)) || float64(whole) >= x+1) {
			t.Fatalf("%v is rounded up to %v", x, whole)
		}
	})
}
