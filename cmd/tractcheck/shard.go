package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// shard is the part of the lines that one of several processes answers: every line whose number,
// counted from 0, leaves index when divided by of. Lines keep their numbers, so the outputs of all
// shards can be put in order by them. All lines where of is 0.
type shard struct{ index, of int64 }

// take says which lines are of the shard; nil means every line.
func (s shard) take() func(number int64) bool {
	if s.of == 0 {
		return nil
	}
	return func(number int64) bool { return (number-1)%s.of == s.index }
}

// readShard reads K/N, or N with K from the index that a Job gave.
func readShard(part string, parts int, jobIndex string) (shard, error) {
	switch {
	case part == "" && parts == 0:
		return shard{}, nil
	case part != "" && parts != 0:
		return shard{}, errors.New("give -shard or -shards, not both")
	case part == "":
		if jobIndex == "" {
			return shard{}, errors.New("-shards needs JOB_COMPLETION_INDEX in the environment; without a Job, give -shard K/N")
		}
		part = jobIndex + "/" + strconv.Itoa(parts)
	}
	k, n, _ := strings.Cut(part, "/")
	index, errIndex := strconv.ParseInt(k, 10, 64)
	of, errOf := strconv.ParseInt(n, 10, 64)
	if errIndex != nil || errOf != nil || index < 0 || index >= of {
		return shard{}, fmt.Errorf("the shard is %q; give K/N with K from 0 to N-1, such as 0/8", part)
	}
	return shard{index, of}, nil
}
