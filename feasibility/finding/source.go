package finding

// Standing says how a source was checked.
type Standing string

// The standings of a source.
const (
	Read           Standing = "read"            // the figure was read in the source, its abstract or a quotation of it
	FromMemory     Standing = "from memory"     // known, not read again; decides no hard stop alone
	CommonPractice Standing = "common practice" // a fact of the trade
	OwnDesign      Standing = "own design"      // a choice of this project, stated as such
)

// Source is a published source of a number or a rule.
type Source struct {
	ID       string // short stable key, lower case with hyphens, such as gunn-kinzer-1949
	Citation string // author, year, title, table or section
	Standing Standing
}

// Cited reports whether the source is named at all.
func (s Source) Cited() bool { return s.ID != "" && s.Citation != "" }
