package rf

import (
	"fmt"
	"math"
)

// RangeError says that a formula was asked outside the range in which it holds. A rule prints
// nothing then, or says what it could not estimate; it never uses a value from there.
type RangeError struct {
	Formula  string // Egli's loss
	Quantity string // frequency
	Value    float64
	Low      float64
	High     float64 // math.MaxFloat64 where there is no upper end
	Unit     string
}

// Error returns, for example, "Egli's loss holds for a frequency of 90 to 1000 MHz, and 1296 MHz
// is outside; leave the estimate out".
func (e *RangeError) Error() string {
	valid := fmt.Sprintf("of %.6g to %.6g %s", e.Low, e.High, e.Unit)
	switch {
	case e.High == math.MaxFloat64 && e.Low == math.SmallestNonzeroFloat64:
		valid = "above zero"
	case e.High == math.MaxFloat64:
		valid = fmt.Sprintf("of at least %.6g %s", e.Low, e.Unit)
	}
	return fmt.Sprintf("%s holds for %s %s, and %.6g %s is outside; leave the estimate out", e.Formula, e.Quantity, valid, e.Value, e.Unit)
}

// A bound is one quantity of a formula and the range in which the formula holds.
type bound struct {
	quantity  string
	value     float64
	low, high float64
	unit      string
}

// inRange returns a *RangeError for the first quantity that is outside, or not a number.
func inRange(formula string, bounds ...bound) error {
	for _, b := range bounds {
		if !(b.value >= b.low && b.value <= b.high) {
			return &RangeError{Formula: formula, Quantity: b.quantity, Value: b.value, Low: b.low, High: b.high, Unit: b.unit}
		}
	}
	return nil
}
