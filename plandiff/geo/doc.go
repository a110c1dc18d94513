// Package geo writes where the repeaters of a plan stand, in open formats that maps
// read: GeoJSON (RFC 7946) and GPX 1.1.
//
//	places, nowhere := geo.Places(p)
//	err := geo.GeoJSON(w, places)
//	err = geo.GPX(w, "Harrow Valley", places)
//
// Positions are on WGS 84, longitude before latitude in GeoJSON. A repeater whose plan
// gives coordinates stands there, to five decimals: about a meter. One that has only a
// Maidenhead locator stands at the center of its cell, to no more decimals than the cell
// is worth; how far off the true place may be is said, and GeoJSON has the cell as an
// area. A repeater with neither is in nowhere, for the caller to name.
//
// Heights are left out of positions: a plan says how high an antenna is above ground,
// and both formats would take a height for one above the sea or the ellipsoid.
package geo
