package daylight

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tractcheck/feasibility/units"
)

// row is one line of a published table, by column name.
type row map[string]string

// published reads a check table of testdata/published.
func published(t *testing.T, name string) []row {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 1, "a table without rows checks nothing")
	rows := make([]row, 0, len(lines)-1)
	for _, line := range lines[1:] {
		r := row{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	return rows
}

func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "column %s", column)
	return value
}

// moment reads a time, or nil where the cell is empty.
func (r row) moment(t *testing.T, column string) *time.Time {
	t.Helper()
	if r[column] == "" {
		return nil
	}
	value, err := time.Parse(time.RFC3339, r[column])
	require.NoError(t, err, "column %s", column)
	return &value
}

func (r row) place(t *testing.T) Place {
	t.Helper()
	return Place{
		Latitude:  units.Angle(r.number(t, "latitude")) * units.Degree,
		Longitude: units.Angle(r.number(t, "longitude")) * units.Degree,
	}
}
