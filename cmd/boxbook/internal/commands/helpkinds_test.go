package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestEveryKindHasAPage: whatever name check gives, help explains it, and no name
// is a command's or a topic's.
func TestEveryKindHasAPage(t *testing.T) {
	for _, name := range kindNames() {
		page, ok := kindPage(name)
		require.True(t, ok, name)
		require.Contains(t, page, name+" (")
		require.NotContains(t, page, "\n=== ", name)
	}
	_, ok := kindPage("")
	require.False(t, ok)
	for _, cmd := range newRoot(systemStreams()).Commands() {
		require.NotContains(t, kindNames(), cmd.Name())
	}
}
