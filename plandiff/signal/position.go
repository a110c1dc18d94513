package signal

// Position is a point on WGS 84.
type Position struct {
	Lat MicroDegrees `json:"lat"`
	Lon MicroDegrees `json:"lon"`
}

// String returns latitude and longitude in decimal degrees: 40.1, -104.2.
func (p Position) String() string { return p.Lat.String() + ", " + p.Lon.String() }
