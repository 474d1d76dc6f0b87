package permits

// Pointers is a list of JSON pointers, none empty and none twice. Short lists, which most are, take no
// memory of their own.
type Pointers struct {
	near  [nearPointers]string
	count int
	far   []string // those that near has no room for
}

const nearPointers = 3

// pointTo lists pointers.
func pointTo(pointers ...string) Pointers {
	var p Pointers
	for _, pointer := range pointers {
		p.add(pointer)
	}
	return p
}

// len is how many pointers there are.
func (p *Pointers) len() int { return p.count + len(p.far) }

// at is the i-th pointer.
func (p *Pointers) at(i int) string {
	if i < p.count {
		return p.near[i]
	}
	return p.far[i-p.count]
}

// last is the last pointer; empty where there is none.
func (p *Pointers) last() string {
	if n := p.len(); n > 0 {
		return p.at(n - 1)
	}
	return ""
}

// add adds a pointer that is not there yet.
func (p *Pointers) add(pointer string) {
	if pointer == "" {
		return
	}
	for i := range p.len() {
		if p.at(i) == pointer {
			return
		}
	}
	if p.count < nearPointers {
		p.near[p.count] = pointer
		p.count++
		return
	}
	// The list may be a copy: what the other one holds beyond near stays its own.
	p.far = append(p.far[:len(p.far):len(p.far)], pointer)
}

// addAll adds the pointers of another list.
func (p *Pointers) addAll(others *Pointers) {
	for i := range others.len() {
		p.add(others.at(i))
	}
}

// list is the pointers as a list of its own; nil where there is none.
func (p *Pointers) list() []string {
	if p.len() == 0 {
		return nil
	}
	return p.appendTo(make([]string, 0, p.len()))
}

// appendTo appends the pointers to a list.
func (p *Pointers) appendTo(list []string) []string {
	return append(append(list, p.near[:p.count]...), p.far...)
}
