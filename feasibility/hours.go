package feasibility

import (
	"time"

	"tractcheck/feasibility/air"
	"tractcheck/feasibility/daylight"
	"tractcheck/feasibility/drift"
	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/permits"
	"tractcheck/feasibility/units"
)

// Forecast is the weather of one hour, stated or forecast, from Weather.At on. Place, wind height and
// humidity may be missing; see AssessHours for what is then taken.
type Forecast struct {
	Weather
	HumidityMissing bool // RelativeHumidity says nothing
}

// SprayHours is which hours let a job be flown.
type SprayHours struct {
	Headline  string
	RulesAsOf time.Time
	Job       JobTime
	Hours     []HourVerdict // one for each forecast, in its order
	Windows   []Window      // in the order of time
	Best      *Best         // nil where the windows together are too short, or the job's time is not known

	// Findings are those of the job, whatever the hour, and those that every hour shares. A stop among
	// them stops every hour.
	Findings    []finding.Finding
	Assumptions []finding.Assumption
	Cautions    []string
	Sources     []finding.Source
}

// JobTime is what the job takes, planned for the strongest wind and the thinnest air of its good hours.
type JobTime struct {
	Elapsed  units.Duration // on the clock; zero where it could not be worked out
	Sorties  units.Count
	Aircraft units.Count
	Sprayed  units.Area
}

// HourVerdict is one hour judged.
type HourVerdict struct {
	At        time.Time
	Go        bool
	BoundBy   []finding.Code // what forbids it, that of every hour included; empty where Go
	Phase     daylight.Phase
	Inversion air.InversionState
	DeltaT    units.TemperatureDifference
	Grade     drift.Grade       // empty where what lands was not worked out and the grade depends on it
	Flown     bool              // what lands was worked out; it is not where light, air or wind forbid the hour anyway
	Deposit   units.Proportion  // best estimate where the grade was read: at the worst-placed neighbor downwind, else at 10 m
	Humidity  *units.Proportion // taken where none was stated
	Findings  []finding.Finding // what binds and what to watch, that of every hour apart

	strips string         // which strips the plan leaves for neighbors in this wind
	until  time.Time      // how far the hour reaches
	takes  units.Duration // the job's time in this hour
}

// Window is good hours without a gap.
type Window struct {
	From, To     time.Time
	Length       units.Duration
	EnoughForJob bool
	Grade        drift.Grade      // the worst of its hours
	Deposit      units.Proportion // likewise

	first, last int // places in Hours
	takes       units.Duration
}

// Best is when to do the job: one stretch of one window, or several windows where none is enough.
type Best struct {
	From, To time.Time
	Windows  []int // places in Windows
	Because  string
}

// hourSpan is how long one forecast speaks for at most.
const hourSpan = time.Hour

// AssessHours judges a job hour by hour. An hour is good exactly where Assess, given the mission with
// that hour's weather, finds no stop and nothing needed that the hour itself brings: flying at night or
// in twilight without what it takes, or without saying so, less visibility or clearance from cloud than
// the limit, a severe drift grade, more on a neighbor than it was assumed to tolerate, a fill past what
// thin air is estimated to leave, or weather that cannot be right. An hour whose light is not known,
// because its place is missing, is not good either.
// Papers to obtain and facts to supply that every hour needs alike do not make an hour bad; they are
// findings of the job.
//
// The mission needs what Assess needs but weather. Of its own weather only place and wind height are
// read, for hours that state none; the place may also be the middle of the field's boundary. Hours come
// in the order of time, each once. A humidity that is missing is that of the air of the nearest hour that
// states one, within six hours, at this hour's temperature, else 20 %; both are said, and what
// they forbid is needed, not a stop.
//
// Where light, air, wind or weight forbid an hour, what would land on the neighbors is not worked out, and
// findings on it are missing (Flown is false).
//
// What the hour does not move is computed once, and what lands once for hours of the same air, wind and
// weight. The sorties are planned for the strongest wind and the thinnest air among the good hours, so a
// good hour can be flown as planned; only where that plan fails are hours planned one by one. An hour
// speaks for the time up to the next, one hour at most, and a window ends sooner where the light or the
// hours of inversions do. The error is for a part left out.
func AssessHours(m Mission, forecasts []Forecast) (SprayHours, error) {
	if err := m.needs(aircraftPart, spraySystemPart, flightPart, operationPart); err != nil {
		return SprayHours{}, err
	}
	answer := SprayHours{RulesAsOf: permits.AsOf()}
	if len(forecasts) == 0 {
		answer.Headline = "No hour was sent, so none was judged. Send the weather hour by hour."
		return answer, nil
	}
	d := newDay(m, forecasts)
	d.judgeAll()
	d.planAll()
	answer.Hours = d.verdicts()
	answer.Windows = d.windows(answer.Hours)
	d.gather(&answer)
	answer.Best = best(answer)
	answer.Headline = hoursHeadline(answer)
	return answer, nil
}
