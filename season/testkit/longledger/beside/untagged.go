//go:build !speed

package main

import (
	"fmt"
	"os"
)

// Without its tag the command is not built: it says so.
func main() {
	fmt.Fprintln(os.Stderr, "run it with -tags speed")
	os.Exit(1)
}
