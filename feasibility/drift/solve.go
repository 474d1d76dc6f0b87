package drift

// solve finds the concentrations of the next step in two stages, and the ways beside them, which grow by
// the wind in each cell. It is Thomas's elimination, up and down the cells for each stage of each; what
// can be done in one passage is.
func (p *plumes) solve(g *grid, settling, youth, perStep pair) {
	overall := perStep.inverse()
	n := max(p.reach[0], p.reach[1])
	p.eliminate(n, g, settling, youth, perStep)
	lands := p.endFirst(n, g, overall)
	p.beginSecond(n)
	aloft, landsWay := p.endSecond(n, g, overall)
	p.endWays(n)
	p.account(aloft.each(), lands.each(), landsWay.each())
}

// eliminate works out the matrix of a step in the form that the elimination leaves: each cell of a stage
// is kept x what was there + fromBelow x the cell below + fromAbove x the one above. It goes up with the
// first stage of the concentrations on the way.
func (p *plumes) eliminate(n int, g *grid, settling, youth, perStep pair) {
	apart, stiffness, thickness := g.apart[:n+1], g.stiffness[:n+1], g.thickness[:n]
	kept, fromBelow, fromAbove := p.kept[:n], p.fromBelow[:n], p.fromAbove[:n]
	c, next := p.concentration[:n], p.next[:n]
	crossing, half := paired(&p.crossing), settling.scaled(0.5)
	// exchange is the turbulent exchange across the lower face of a cell, m/s; none across the ends.
	var exchange, below, last pair
	for i := range n {
		var above pair
		if i < n-1 {
			above = crossing.scaled(stiffness[i+1]).plus(youth.scaled(apart[i+1])).inverse().minus(half).positive()
		}
		stays := perStep.scaled(thickness[i])
		inverse := stays.plus(settling.plus(exchange)).plus(above).minus(exchange.times(below)).inverse()
		k, b := stays.times(inverse), exchange.times(inverse)
		below = settling.plus(above).times(inverse)
		kept[i], fromBelow[i], fromAbove[i] = k, b, below
		last = k.times(c[i]).plus(b.times(last))
		next[i] = last
		exchange = above
	}
}

// endFirst comes down with the first stage of the concentrations, and sets up that of the ways and the
// second of the concentrations: c + (1-g)/g (c1 - c), c1 being the first stage. It reports c1 in the lowest
// cell.
func (p *plumes) endFirst(n int, g *grid, overall pair) (lowest pair) {
	wind, fromAbove := g.wind[:n], p.fromAbove[:n]
	c, way, next, nextWay := p.concentration[:n], p.way[:n], p.next[:n], p.nextWay[:n]
	var up pair
	for i := n - 1; i >= 0; i-- {
		up = next[i].plus(fromAbove[i].times(up))
		nextWay[i] = way[i].plus(up.times(overall).scaled(wind[i]))
		next[i] = up.scaled(carryOver).minus(c[i].scaled(carryOver - 1))
	}
	return up
}

// beginSecond goes up with the second stage of the concentrations and the first of the ways.
func (p *plumes) beginSecond(n int) {
	kept, fromBelow, next, nextWay := p.kept[:n], p.fromBelow[:n], p.next[:n], p.nextWay[:n]
	var last, lastWay pair
	for i := range n {
		last = kept[i].times(next[i]).plus(fromBelow[i].times(last))
		lastWay = kept[i].times(nextWay[i]).plus(fromBelow[i].times(lastWay))
		next[i], nextWay[i] = last, lastWay
	}
}

// endSecond comes down with both, and sets up the second stage of the ways. It reports what is
// aloft, and the first stage of the way in the lowest cell.
func (p *plumes) endSecond(n int, g *grid, overall pair) (aloft, lowest pair) {
	wind, thickness, fromAbove := g.wind[:n], g.thickness[:n], p.fromAbove[:n]
	c, way, next, nextWay := p.concentration[:n], p.way[:n], p.next[:n], p.nextWay[:n]
	var up, upWay pair
	for i := n - 1; i >= 0; i-- {
		up = next[i].plus(fromAbove[i].times(up))
		c[i] = up
		aloft = aloft.plus(up.scaled(thickness[i]))
		upWay = nextWay[i].plus(fromAbove[i].times(upWay))
		nextWay[i] = upWay.scaled(carryOver).minus(way[i].scaled(carryOver - 1)).plus(up.times(overall).scaled(wind[i]))
	}
	return aloft, upWay
}

// endWays goes up and comes down with the second stage of the ways.
func (p *plumes) endWays(n int) {
	kept, fromBelow, fromAbove, way, nextWay := p.kept[:n], p.fromBelow[:n], p.fromAbove[:n], p.way[:n], p.nextWay[:n]
	var last pair
	for i := range n {
		last = kept[i].times(nextWay[i]).plus(fromBelow[i].times(last))
		nextWay[i] = last
	}
	var up pair
	for i := n - 1; i >= 0; i-- {
		up = nextWay[i].plus(fromAbove[i].times(up))
		way[i] = up
	}
}
