package drift

import (
	"math"
	"math/rand/v2"

	"tractcheck/feasibility/units"
)

// walker is an independent, slow solution of the same physics: drops followed one by one, each a
// Lagrangian random walk in the turbulence. It reads the same conditions and wake as the room, and
// shares no line of how they are solved: its own drag by halving, its own drying in short times, its
// own sizes of the spectrum, true ages instead of mean ones, and neither cells nor steps.
type walker struct {
	plan   *flightPlan
	wake   wake
	sigma  float64 // vertical turbulence the drops cross, m/s
	random *rand.Rand
	moves  int // of single drops so far

	winds, mixes [walkRows]float64  // wind and turbulent diffusivity by height, sqrt spacing
	slopes       [walkRows]float64  // of the diffusivity
	falls        [walkFalls]float64 // terminal speed by the logarithm of the diameter, log spacing
}

const (
	walkSizes = 80    // strata of the spectrum
	walkPilot = 16    // drops of each that tell where more are worth most
	walkAim   = 0.08  // relative standard error aimed at
	walkMost  = 90000 // drops of one condition
	walkRows  = 2000  // heights tabled
	walkTop   = 200.0 // m
	walkStep  = 0.015 // of the time that mixing takes through a height
	walkAges  = 160   // ages of a drop tabled
	oldest    = 300.0 // s
	walkFalls = 300   // diameters tabled, from finest to coarsest
	finest    = 1e-6  // m
	coarsest  = 1e-2
)

func newWalker(f *flightPlan, seed uint64) *walker {
	w := &walker{plan: f, wake: f.rotor.below(f.height, f.medium), random: rand.New(rand.NewPCG(7, seed))}
	_, w.sigma = f.medium.exchange(f.height / 2)
	for i := range w.winds {
		part := float64(i) / (walkRows - 1)
		z := walkTop * part * part
		w.winds[i] = f.medium.at(z)
		w.mixes[i], _ = f.medium.exchange(z)
		const h = 0.01
		above, _ := f.medium.exchange(z + h)
		w.slopes[i] = (above - w.mixes[i]) / h
	}
	for i := range w.falls {
		d := finest * math.Pow(coarsest/finest, float64(i)/(walkFalls-1))
		w.falls[i] = math.Log(balance(d, f.medium))
	}
	return w
}

// fall is the terminal speed of drops of a diameter.
func (w *walker) fall(d float64) float64 {
	at := math.Log(d/finest) / math.Log(coarsest/finest) * (walkFalls - 1)
	i := max(0, min(int(at), walkFalls-2))
	return math.Exp(w.falls[i] + (at-float64(i))*(w.falls[i+1]-w.falls[i]))
}

// row finds a height in the tables.
func row(z float64) (int, float64) {
	at := math.Sqrt(min(z, walkTop)/walkTop) * (walkRows - 1)
	i := min(int(at), walkRows-2)
	return i, at - float64(i)
}

func between(t *[walkRows]float64, i int, part float64) float64 { return t[i] + part*(t[i+1]-t[i]) }

// life is the terminal speed of a drop by its age, in even steps of the root of the age.
type life [walkAges]float64

func (l *life) speed(age float64) float64 {
	at := math.Sqrt(min(age, oldest)/oldest) * (walkAges - 1)
	i := min(int(at), walkAges-2)
	return l[i] + (at-float64(i))*(l[i+1]-l[i])
}

// live works a drop's life out: d(d^2)/dt = -8 k dT/(rho L) f, with the ventilation of Beard and
// Pruppacher, until what never evaporates is left.
func (w *walker) live(first float64) *life {
	m := w.plan.medium
	film := m.celsius - m.depression*2/3
	latent := 1000 * (2500.8 - 2.36*(m.celsius-m.depression))
	rate := 8 * (0.0241 + 7e-5*film) * m.depression / (m.liquidDensity * latent)
	diffusivity := 2.11e-5 * math.Pow(1+film/273.15, 1.94) * 101325 / m.pressure
	schmidt := m.viscosity / m.airDensity / diffusivity
	floor := first * math.Pow(m.nonvolatile, 1.0/3)
	var l life
	d, age := first, 0.0
	v := w.fall(d)
	for i := range l {
		part := float64(i) / (walkAges - 1)
		until := oldest * part * part
		for age < until && d > floor && rate > 0 {
			x := math.Cbrt(schmidt) * math.Sqrt(v*d*m.airDensity/m.viscosity)
			f := 1 + 0.108*x*x
			if x >= 1.4 {
				f = 0.78 + 0.308*x
			}
			step := min(until-age, 0.03*d*d/(rate*f))
			d = max(floor, math.Sqrt(max(0, d*d-rate*f*step)))
			age += step
			v = w.fall(d)
		}
		age = until
		l[i] = v
	}
	return &l
}

// balance finds the speed at which drag equals weight by halving.
func balance(d float64, m medium) float64 {
	weight := math.Pi / 6 * d * d * d * (m.liquidDensity - m.airDensity) * 9.80665
	low, high := 1e-7, 20.0
	for range 36 {
		v := math.Sqrt(low * high)
		re := m.airDensity * v * d / m.viscosity
		cd := 24/re*(1+0.15*math.Pow(re, 0.687)) + 0.42/(1+42500*math.Pow(re, -1.16))
		if math.Pi/8*m.airDensity*d*d*cd*v*v < weight {
			low = v
		} else {
			high = v
		}
	}
	return math.Sqrt(low * high)
}

// stratum is a part of the spray volume walked as drops of one size, and what became of them.
type stratum struct {
	share float64
	life  *life
	count int
	hits  []float64 // drops that landed in the field's reach of each distance
	moves int
}

// walk sends drops of a stratum off and counts where they land.
func (w *walker) walk(s *stratum, count int, at []float64, length float64) {
	*s = stratum{share: s.share, life: s.life, count: count, hits: make([]float64, len(at))}
	before := w.moves
	for k := range count {
		x := w.drop(s.life, (float64(k)+w.random.Float64())/float64(count), at[len(at)-1]+length)
		for j := range at {
			if x > at[j] && x <= at[j]+length {
				s.hits[j]++
			}
		}
	}
	s.moves = w.moves - before
}

// chance is the share of a stratum's drops that landed there, kept off the ends so that a stratum of
// few drops is not taken for certain.
func (s *stratum) chance(j int) float64 { return (s.hits[j] + 0.5) / (float64(s.count) + 1) }

// deposits reports the deposit of a field of a length at distances, and the standard error of each.
// A pilot of few drops of each size tells how many of each are worth their time (Neyman 1934: by
// share times scatter over the root of the cost) for an aim at every distance; it does not count
// toward the answer.
func (w *walker) deposits(dv05 float64, at []float64, length, aim float64) (deposit, scatter []float64) {
	spectrum := sprayOf(dv05)
	strata := make([]stratum, walkSizes)
	for i := range strata {
		// Strata of the cube root of the volume share: many of fines, and each counts as it weighs.
		low, high := float64(i)/walkSizes, float64(i+1)/walkSizes
		low, high = low*low*low, high*high*high
		s := &strata[i]
		s.share, s.life = high-low, w.live(spectrum.Quantile(units.Proportion((low+high)/2)).SI())
		w.walk(s, walkPilot, at, length)
	}
	deposit, _ = sum(strata, at)
	worth := make([]float64, walkSizes)
	needed := 0.0
	for j := range at {
		goal := aim * max(floor, deposit[j])
		whole := 0.0
		for i := range strata {
			s := &strata[i]
			p := s.chance(j)
			whole += s.share * math.Sqrt(p*(1-p)*float64(s.moves+1))
		}
		for i := range strata {
			// Of the drops that meet the goal at this distance at the least cost, those of this size.
			s := &strata[i]
			p := s.chance(j)
			worth[i] = max(worth[i], s.share*math.Sqrt(p*(1-p)/float64(s.moves+1))*whole/(goal*goal))
		}
	}
	for i := range worth {
		needed += worth[i]
	}
	for i := range strata {
		w.walk(&strata[i], max(walkPilot, int(worth[i]*min(1, walkMost/needed))), at, length)
	}
	return sum(strata, at)
}

// sum adds the strata up at each distance, with the standard error.
func sum(strata []stratum, at []float64) (deposit, scatter []float64) {
	deposit, scatter = make([]float64, len(at)), make([]float64, len(at))
	for j := range at {
		for i := range strata {
			s := &strata[i]
			p := s.chance(j)
			deposit[j] += s.share * s.hits[j] / float64(s.count)
			scatter[j] += s.share * s.share * p * (1 - p) / float64(s.count)
		}
		scatter[j] = math.Sqrt(scatter[j])
	}
	return deposit, scatter
}

// drop lands one drop; which, from 0 to 1, says whether the wake catches it. A drop is given up
// beyond a distance.
func (w *walker) drop(l *life, which, farthest float64) float64 {
	x, z := 0.0, w.plan.height
	if which < w.wake.help {
		from, to := w.wake.touchdown(l[0])
		x = from + (to-from)*w.random.Float64()
		if w.random.Float64() < w.wake.pressed(l[0]) {
			return x
		}
		bottom, top := w.wake.layer(w.plan.height)
		z = bottom + (top-bottom)*w.random.Float64()
	}
	age, m := 0.0, &w.plan.medium
	for x <= farthest {
		w.moves++
		i, part := row(z)
		// Steps short against the time to mix or fall through the height left; the mixing's own are worth
		// 1 to 3 % of the deposits of mist.
		first := l.speed(age)
		time := max(0.002, min(0.4, walkStep*(z+m.base)/(vonKarman*m.friction), 0.1*(z+0.04)/first))
		v := first
		if m.depression > 0 {
			v = l.speed(age + time/2)
		}
		x += between(&w.winds, i, part) * time
		// dz = dK/dz dt + sqrt(2 K dt) N, with K half the way that its slope carries the drop (Visser
		// 1997, Mar. Ecol. Prog. Ser. 158:275, from memory); turbulence turns back at the crop, settling
		// lands there. The diffusivity of falling drops of an age: crossing trajectories (Csanady 1963)
		// and growth with age (Taylor 1921).
		crossing, young := math.Sqrt(1+v*v/(w.sigma*w.sigma)), 1/(w.sigma*w.sigma*(age+time/2))
		k := between(&w.mixes, i, part)
		mixed := 1 / (crossing/k + young)
		slope := mixed * mixed * crossing * between(&w.slopes, i, part) / (k * k)
		i, part = row(math.Abs(z + slope*time/2))
		mixed = 1 / (crossing/between(&w.mixes, i, part) + young)
		z = math.Abs(z + slope*time + math.Sqrt(2*mixed*time)*w.random.NormFloat64())
		if z -= v * time; z <= 0 {
			return x
		}
		age += time
	}
	return math.Inf(1)
}
