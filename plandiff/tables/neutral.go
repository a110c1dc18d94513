package tables

import (
	_ "embed"
	"sync"
)

//go:embed neutral.yaml
var neutralText string

// NeutralText is the text of the layout that comes with passband, for a club to begin
// its own with.
func NeutralText() string { return neutralText }

// Neutral gives the layout that comes with passband.
var Neutral = sync.OnceValues(func() (*Layout, error) {
	return ParseLayout("neutral.yaml", []byte(neutralText))
})
