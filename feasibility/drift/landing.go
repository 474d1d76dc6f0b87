package drift

// resolution is how finely a landing is computed.
type resolution struct {
	classes  int     // of the spray volume
	below    int     // cells from the crop to the release height
	above    int     // cells over it
	widening float64 // of the thickness of a cell to the next below, up to the release height
	growth   float64 // of the steps in time
	parts    float64 // least parts in which a drop falls from where it was let go
}

// fine serves the answer, within 4 % root mean square of flights with some thirty times the work; coarse
// serves the what-ifs behind the drivers, where the errors of both flights mostly cancel.
var (
	fine   = resolution{classes: 12, below: 10, above: 5, widening: 1.2, growth: 1.5, parts: 8}
	coarse = resolution{classes: 4, below: 4, above: 3, widening: 1.12, growth: 2, parts: 2}
)

const (
	mostPlaces = 64   // where a landing is booked
	mostSteps  = 200  // of a plume
	firstPlace = 0.25 // m along the wind
	placeRatio = 1.2  // of the distances at which a landing is booked
	nothing    = 1e-5 // share of a plume below which it counts as landed
	// longestFlight ends a plume that neither lands nor gets anywhere, s.
	longestFlight = 1e5
)

// flightPlan is all that decides where the spray of one line lands.
type flightPlan struct {
	classes [mostClasses]dropClass
	count   int
	height  float64 // of release above the crop, m
	rotor   rotor
	medium  medium
	speeds  *fall   // terminal speeds of the spray in the medium
	width   float64 // of the field across the wind, m; 0: without end
	fan     float64 // standard deviation across the wind over the distance, see fanOut
	turned  float64 // of the field along the wind where it may lie the other way round, m; 0: it does not
}

// landing is the share of a line's spray that has landed within a distance down the wind of where
// it was let go, class by class summed. It never falls with distance and never passes 1.
type landing struct {
	steps    int
	distance [mostPlaces]float64
	landed   [mostPlaces]float64
	opposite [mostPlaces]float64  // the part of landed that lies opposite the field, see narrow
	between  [mostClasses]float64 // what each class lands between the last two distances
	factor   float64              // either way within which a deposit is taken to lie
	turned   float64              // as of the plan
}

// newLanding lays out the distances at which a landing is booked.
func newLanding(farthest float64) *landing {
	l := &landing{steps: 1, factor: uncertainty}
	for x := firstPlace; l.steps < mostPlaces-1 && x < farthest; x *= placeRatio {
		l.distance[l.steps] = x
		l.steps++
	}
	l.distance[l.steps] = farthest
	l.steps++
	return l
}

// land flies every class of a plan to a distance, m (at least firstPlace).
func (f *flightPlan) land(farthest float64, r resolution) *landing {
	l := newLanding(farthest)
	var s flight
	s.land(f, l, r)
	l.narrow(f.width, f.fan)
	l.turned = f.turned
	l.factor = s.wake.uncertainty()
	return l
}

// lay adds a share that lands evenly over from..to.
func (l *landing) lay(class int, share, from, to float64) {
	before := l.landed[l.steps-1] - l.landed[l.steps-2]
	for i := 1; i < l.steps; i++ {
		l.landed[i] += share * max(0, min(1, (l.distance[i]-from)/max(1e-9, to-from)))
	}
	l.between[class] += l.landed[l.steps-1] - l.landed[l.steps-2] - before
}

// within reports the share landed within a distance; beyond the last step it stays.
func (l *landing) within(x float64) float64 { return l.read(&l.landed, x) }

// read finds what stands in a column at a distance.
func (l *landing) read(column *[mostPlaces]float64, x float64) float64 {
	if x <= 0 {
		return 0
	}
	low, high := 0, l.steps-1
	if x >= l.distance[high] {
		return column[high]
	}
	for high-low > 1 {
		middle := (low + high) / 2
		if l.distance[middle] <= x {
			low = middle
		} else {
			high = middle
		}
	}
	part := (x - l.distance[low]) / (l.distance[high] - l.distance[low])
	return column[low] + part*(column[high]-column[low])
}

// deposit reports the deposit at a distance down the wind of a field of a length along the wind,
// opposite the middle of its edge, as a share of the rate. Lines side by side with an even cover let the
// sum over swaths close: each swath from a to b upwind adds opposite(x+b) - opposite(x+a), and the inner
// terms cancel. Where the field may lie the other way round, short along the wind and wide, it is no less
// than that lays down.
func (l *landing) deposit(x, length float64) float64 {
	deposit := max(0, l.read(&l.opposite, x+length)-l.read(&l.opposite, x))
	if l.turned > 0 {
		deposit = max(deposit, l.within(x+l.turned)-l.within(x))
	}
	return deposit
}

// beyond reports the share of the spray of a field of a length along the wind that does not land
// in the field: the mean over the field of what is still aloft at the downwind edge.
func (l *landing) beyond(length float64) float64 {
	var sum float64
	for i := 1; i < l.steps; i++ {
		low := min(length, l.distance[i-1])
		high := min(length, l.distance[i])
		if high <= low {
			break
		}
		// Trapezoid: the line at a distance x upwind of the edge keeps aloft 1 - within(x).
		sum += (high - low) * (1 - (l.within(low)+l.within(high))/2)
	}
	rest := length - l.distance[l.steps-1]
	if rest > 0 {
		sum += rest * (1 - l.landed[l.steps-1])
	}
	return max(0, min(1, sum/length))
}
