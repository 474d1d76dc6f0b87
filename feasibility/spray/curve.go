package spray

import (
	"math"

	"tractcheck/feasibility/units"
)

// The curve's shape, own choice: nine to twelve round speeds that reach a tenth beyond the span;
// eight may do where the span is tenfold or more, because a curve never starts at rest.
const (
	curveIntervals = 10
	curveBelow     = 0.9
	curveAbove     = 1.1
	curveMost      = 12
)

// roundSteps are the mantissas a step of the curve may have, rising; 10 closes the decade.
var roundSteps = [10]float64{1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8}

// roundSpeeds picks speeds that are multiples of a round step in miles an hour and span the
// lowest to the highest, a little beyond both. Round speeds read well on the axis of a chart and
// do not move when the job's own speed changes a little, so two answers can be laid over each
// other. It reports none unless 0 < lowest <= highest.
func roundSpeeds(lowest, highest units.Speed) []units.Speed {
	from := curveBelow * lowest.In(units.MilePerHour)
	to := curveAbove * highest.In(units.MilePerHour)
	if from <= 0 || to <= from || !units.Finite(to) {
		return nil
	}
	mantissa, decade := roundStep((to - from) / curveIntervals)
	number := func(i float64) float64 {
		if decade < 0 {
			return i * mantissa / math.Pow10(-decade)
		}
		return i * mantissa * math.Pow10(decade)
	}
	first := max(1, math.Floor(from/number(1)+units.Tolerance))
	speeds := make([]units.Speed, 0, curveMost)
	for i := range curveMost {
		v := number(first + float64(i))
		speeds = append(speeds, units.Speed(v)*units.MilePerHour)
		if v >= to*(1-units.Tolerance) {
			break
		}
	}
	return speeds
}

// roundStep reports the least round step not below a positive size, as mantissa and decade.
func roundStep(size float64) (mantissa float64, decade int) {
	decade = int(math.Floor(math.Log10(size)))
	ten := math.Pow(10, float64(decade))
	for _, m := range roundSteps {
		if m*ten >= size*(1-units.Tolerance) {
			return m, decade
		}
	}
	return 1, decade + 1
}

// span picks the speeds the curve covers: the range that holds the rate, and the job's own speed
// where that lies within a factor of two of it.
func span(r SpeedRange, job units.Speed) (lowest, highest units.Speed) {
	lowest, highest = r.Lowest, r.Highest
	if lowest <= 0 {
		lowest = min(job, highest) / 2
	}
	if highest <= 0 {
		lowest, highest = job/2, job*2
	}
	if job < lowest && job >= lowest/2 {
		lowest = job
	}
	if job > highest && job <= 2*highest {
		highest = job
	}
	return lowest, highest
}
