package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"tractcheck/api/stream"
)

// lineReader is where the lines of an input come from.
type lineReader = *stream.Lines

// isSummary reports whether a line of an output is a summary: it counts lines and is to none.
func isSummary(written []byte) bool {
	if bytes.HasPrefix(written, []byte(`{"line":`)) {
		return false
	}
	var summary struct {
		Line     *int64 `json:"line"`
		Complete *bool  `json:"complete"`
	}
	return json.Unmarshal(written, &summary) == nil && summary.Line == nil && summary.Complete != nil
}

// recallLine finds the line that an answer belongs to and takes the answer over.
func (r *screenRun) recallLine(take func(int64) bool, written []byte) error {
	var line stream.Line
	for {
		err := r.lines.Read(&line)
		switch {
		case errors.Is(err, io.EOF):
			return errors.New("it holds answers to more lines than the input has")
		case err != nil:
			return fmt.Errorf("the input cannot be read: %w", err)
		case take != nil && !take(line.Number):
		case line.Blank():
			r.screening.RecallBlank()
		default:
			return r.screening.Recall(line, written)
		}
	}
}
