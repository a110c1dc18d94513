// Package rf computes the radio side of a plan: distances, separation of repeaters, mixing
// products, traffic and exposure.
package rf
