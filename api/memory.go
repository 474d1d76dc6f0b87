package api

// How a process that serves keeps its memory, for debug.SetGCPercent and debug.SetMemoryLimit. Both belong
// to the whole process, so who runs the service sets them. Own choices, measured.
const (
	// MemoryGrowth is by how many percent the memory in use may grow before garbage is looked for. What is
	// in use is a few megabytes, so that looking as often as is usual, at 100 %, takes an eighth of the time
	// of an answer.
	MemoryGrowth = 200
	// MemoryLimit is the memory from which on garbage is looked for as often as it must be to keep to it, in
	// bytes. With the program's own file that is less than 128 MB.
	MemoryLimit = 100 << 20
)
