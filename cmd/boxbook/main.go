// Command boxbook keeps a plain-text ledger of a competition aerobatic pilot's
// flights and answers questions about it.
package main

import "os"

func main() {
	collectSeldom()
	os.Exit(run(os.Args[1:], systemStreams()))
}
