//go:build planted

package main

import "testing"

// TestPlantedAuthorities builds the program once for each number that outputs
// speak of, with that number put another way, and compares what it says:
//
//	go test -tags planted -run TestPlantedAuthorities -v ./cmd/boxbook
func TestPlantedAuthorities(t *testing.T) {
	for _, a := range authorities {
		t.Run(a.name, func(t *testing.T) {
			t.Parallel()
			holdAuthority(t, a)
		})
	}
}
