package permits

// stage is where a row is shown: by group, within a group by status.
type stage uint8

// statuses is how many ranks a status has, the one of no status counted; stages is past the last stage.
const (
	statuses = 6
	stages   = (int(GroupRecords) + 1) * statuses
)

func stageOf(g Group, s Status) stage { return stage(int(g)*statuses + s.rank() + 1) }

// sortByStage sorts things whose stages are given, in their order within one. Things are large, so they
// are counted, and each is moved once.
func sortByStage[T any](things []T, at []stage) {
	var room [usualRows]int
	permute(things, orderByStage(at, sized(room[:], len(things))))
}

// orderByStage fills in which thing comes at each place.
func orderByStage(at []stage, from []int) []int {
	var next [stages + 1]int // where the next thing of a stage goes
	for _, s := range at {
		next[s+1]++
	}
	for s := range stages {
		next[s+1] += next[s]
	}
	for i, s := range at {
		from[next[s]] = i
		next[s]++
	}
	return from
}

// moved marks a place whose thing has come.
const moved = -1

// permute puts at every place the thing of the place given for it.
func permute[T any](things []T, from []int) {
	for start := range from {
		if from[start] == moved {
			continue
		}
		first, to := things[start], start
		for from[to] != start {
			things[to] = things[from[to]]
			to, from[to] = from[to], moved
		}
		things[to], from[to] = first, moved
	}
}

// usualRows is room for something of every row of a table of this size; more only takes memory.
const usualRows = 96

// sized is a list of so many zeros, in the room given where it is enough.
func sized[T any](room []T, count int) []T {
	if count <= len(room) {
		return room[:count]
	}
	return make([]T, count)
}
