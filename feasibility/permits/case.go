package permits

// Case is one mission's facts, readied for what is asked of the table: the checklist, the other side of
// the 55 lb line and the record. They share what they find out and the pages that they write on. It is not
// safe for use by several goroutines.
type Case struct {
	view   view
	texts  scribe
	judged judged
}

// Open readies the facts of a mission.
func Open(f Facts) *Case {
	c := &Case{}
	c.view = view{Facts: f, scribe: &c.texts, shared: &c.judged}
	c.view.look()
	return c
}

// Settled reports whether the side of the 55 lb line is.
func (c *Case) Settled() bool { return c.view.OtherSide == nil }

// Settle is the same case as if the takeoff weight settled the side.
func (c *Case) Settle() *Case {
	f := c.view.Facts
	f.OtherSide = nil
	return Open(f)
}
