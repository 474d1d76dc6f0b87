package drift

// pair is one number of each of two plumes, which are flown side by side: the cells of one plume wait
// for each other, and a processor does two in little more than the time of one.
type pair struct{ a, b float64 }

// lanes is how many plumes fly side by side.
const lanes = 2

func paired(v *[lanes]float64) pair   { return pair{v[0], v[1]} }
func (p pair) each() [lanes]float64   { return [lanes]float64{p.a, p.b} }
func (p pair) plus(q pair) pair       { return pair{p.a + q.a, p.b + q.b} }
func (p pair) minus(q pair) pair      { return pair{p.a - q.a, p.b - q.b} }
func (p pair) times(q pair) pair      { return pair{p.a * q.a, p.b * q.b} }
func (p pair) scaled(by float64) pair { return pair{p.a * by, p.b * by} }
func (p pair) inverse() pair          { return pair{1 / p.a, 1 / p.b} }
func (p pair) positive() pair         { return pair{positive(p.a), positive(p.b)} }

// set puts a number in one lane.
func (p *pair) set(lane int, value float64) {
	if lane == 0 {
		p.a = value
		return
	}
	p.b = value
}

// positive is a number, or zero where it is less.
func positive(x float64) float64 {
	if x > 0 {
		return x
	}
	return 0
}
