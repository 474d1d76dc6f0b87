package stream_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"strings"

	"tractcheck/api/stream"
)

func ExamplePump() {
	longest := 0
	pump := stream.Pump[int]{
		Workers: 4,
		Answer: func(line stream.Line, out *bytes.Buffer, known *int) {
			*known = len(line.Text)
			fmt.Fprintf(out, "%d: %s\n", line.Number, strings.ToUpper(string(line.Text)))
		},
		Released: func(_ stream.Line, known *int) { longest = max(longest, *known) },
	}
	lines := stream.NewLines(strings.NewReader("north forty\n\nlevee strip\n"), 1000)
	if err := pump.Run(context.Background(), lines, os.Stdout); err != nil {
		fmt.Println(err)
	}
	fmt.Println("longest:", longest)
	// Output:
	// 1: NORTH FORTY
	// 3: LEVEE STRIP
	// longest: 11
}
