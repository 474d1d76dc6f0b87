package tract

import (
	"cmp"
	"math"
	"slices"

	"tractcheck/feasibility/finding"
	"tractcheck/feasibility/units"
)

// course is the direction of the lines.
type course struct {
	angle   float64 // counter-clockwise from east; the first line lies at the low side of its frame
	bearing units.Bearing
	by      CourseChoice
	laid    *layout // along angle, where it had to be laid to choose it
}

// choose settles the course: the caller's, else across the wind where that was asked for, else
// the one with the fewest turns. On the map it also settles the side to start from.
func choose(g *ground, job *Job, r *report) course {
	c := course{by: CourseByFewestTurns}
	switch {
	case job.Course != nil:
		c.by, c.bearing = CourseByCaller, job.Course.Normal()
	case job.Crosswind != nil && *job.Crosswind && job.WindSpeed > 0:
		// A course across the wind keeps the ground speed equal both ways. Coombes et al. 2018.
		c.by, c.bearing = CourseByWind, (job.WindFrom + math.Pi/2).Normal()
		r.Cite(sourceWind)
	case job.Crosswind != nil && *job.Crosswind:
		r.Find(finding.Finding{
			Code: CodeCrosswindWithoutWind, Severity: finding.Caution, Subject: "/flight/crosswind",
			Message: "You asked for a course across the wind, but no wind speed is known, so the course with the fewest turns was taken. Send the wind's speed and direction.",
			Source:  sourceWind,
		})
	}
	if !g.mapped {
		return c.unmapped(r)
	}
	if c.by == CourseByFewestTurns {
		c.angle, c.laid = fewestTurns(g, job)
		c.bearing = line(units.Bearing(math.Pi/2 - c.angle))
		r.Cite(sourceTurns)
	} else {
		c.angle = math.Pi/2 - c.bearing.SI()
	}
	if c.laid == nil {
		c.angle = job.fromDownwind(c.angle)
	}
	c.startDownwind(job, r)
	return c
}

// unmapped lays the lines along the longer side of a field that has no place on the map.
func (c course) unmapped(r *report) course {
	assumed := "lines along the longer side of the tract, which is taken to run north and south"
	if c.by != CourseByFewestTurns {
		assumed = "the longer side of the tract lies along the course"
	}
	r.Assume("/field/boundary", assumed, "send the boundary as GeoJSON", sourceOwn)
	return c
}

// layout lays the lines along the course.
func (c *course) layout(g *ground, swath float64) layout {
	if c.laid != nil {
		return *c.laid
	}
	return lay(g, c.angle, swath)
}

// fromDownwind turns an angle half round where that brings the first line to the downwind side.
func (j *Job) fromDownwind(angle float64) float64 {
	if !(j.WindSpeed > 0) {
		return angle
	}
	// The wind blows toward (-sin, -cos) of where it comes from; n grows along (-sin, cos) of the angle.
	sinFrom, cosFrom := math.Sincos(j.WindFrom.SI())
	sin, cos := math.Sincos(angle)
	if sinFrom*sin-cosFrom*cos > 0 {
		return angle + math.Pi
	}
	return angle
}

// startDownwind says which side to start at.
func (c course) startDownwind(job *Job, r *report) {
	if !(job.WindSpeed > 0) {
		return
	}
	sin, cos := math.Sincos(c.angle)
	side := units.Bearing(math.Atan2(sin, -cos)).Normal() // of the low side: along (sin, -cos)
	r.Find(finding.Finding{
		Code: CodeStartDownwind, Severity: finding.Note, Subject: "/flight/course",
		Message: "Start at the " + compass(side) + " side, which is downwind, and work into the wind, so that the aircraft does not fly through its own spray.",
		Source:  sourceDownwind,
	})
}

// compass names the nearest of eight directions.
func compass(b units.Bearing) string {
	names := [...]string{"north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"}
	return names[int(math.Round(b.In(units.BearingDegree)/45))%len(names)]
}

// line reports a course as a direction in [0, pi): a line has no front end.
func line(b units.Bearing) units.Bearing {
	b = b.Normal()
	if b >= math.Pi-units.Tolerance {
		b -= math.Pi
	}
	return max(0, b)
}

// heading is a direction of lines and the number of line pieces to expect along it, times the
// swath.
type heading struct{ angle, extent float64 }

// fewestTurns reports the angle along which the ground is covered in the fewest pieces of line.
//
// A convex tract is covered in width/swath passes, and its least width lies along one of its
// sides (Huang 2001). Any other ground is covered in about H/swath pieces, where H is half the sum
// over all edges of their extent across the lines: each piece starts at one edge and ends at
// another. H as a function of the angle is a sum of |sin|, which bends upward only where the
// lines run along an edge, so its least value too lies along an edge and testing each edge
// direction finds it. The few best are then laid, from the side where the job starts, and counted.
func fewestTurns(g *ground, job *Job) (float64, *layout) {
	candidates := headings(g)
	if len(candidates) == 0 {
		return 0, nil
	}
	if g.convex {
		return candidates[0].angle, nil
	}
	const tried = 3 // own choice
	var kept *layout
	best := 0.0
	for _, c := range candidates[:min(tried, len(candidates))] {
		angle := job.fromDownwind(c.angle)
		if laid := lay(g, angle, job.Swath.SI()); kept == nil || laid.pieces < kept.pieces {
			best, kept = angle, &laid
		}
	}
	return best, kept
}

// headings lists the edge directions of the ground by rising H, equal directions once.
func headings(g *ground) []heading {
	sides := directions(g)
	// The sides turned to [0, pi) and sorted: for a direction d, the cross product with d is
	// negative for every side before it and positive after, so prefix sums give H at once.
	sumX, sumY := 0.0, 0.0
	for _, s := range sides {
		sumX, sumY = sumX+s.x, sumY+s.y
	}
	out := make([]heading, 0, len(sides))
	beforeX, beforeY := 0.0, 0.0
	for i, s := range sides {
		if i == 0 || s.angle-sides[i-1].angle > 1e-6 {
			sin, cos := math.Sincos(s.angle)
			before := cos*beforeY - sin*beforeX
			after := cos*(sumY-beforeY) - sin*(sumX-beforeX)
			// Seven digits, so that directions equal but for rounding tie and the lower angle wins.
			extent := units.Significant(units.Length(after-before)/2, 7).SI()
			out = append(out, heading{angle: s.angle, extent: extent})
		}
		beforeX, beforeY = beforeX+s.x, beforeY+s.y
	}
	slices.SortStableFunc(out, func(a, b heading) int {
		return cmp.Or(cmp.Compare(a.extent, b.extent), cmp.Compare(a.angle, b.angle))
	})
	return out
}

// side is an edge of the ground turned so that its angle lies in [0, pi).
type side struct{ angle, x, y float64 }

// directions lists the edges of the tract and its keep-outs by rising angle.
func directions(g *ground) []side {
	corners := g.tract.corners()
	for _, rings := range g.keepOuts {
		corners += rings.corners()
	}
	out := make([]side, 0, corners)
	for _, rings := range append([]region{g.tract}, g.keepOuts...) {
		for _, ring := range rings {
			for i := 1; i < len(ring); i++ {
				x, y := ring[i][0]-ring[i-1][0], ring[i][1]-ring[i-1][1]
				angle := math.Atan2(y, x)
				if angle < 0 {
					angle, x, y = angle+math.Pi, -x, -y
				}
				if angle >= math.Pi-1e-9 {
					angle, x, y = 0, -x, -y
				}
				out = append(out, side{angle, x, y})
			}
		}
	}
	slices.SortFunc(out, func(a, b side) int { return cmp.Compare(a.angle, b.angle) })
	return out
}
