package rf

import (
	"math"

	"passband.example/plandiff/signal"
)

// DipoleDBi is the gain of a half-wave dipole over an isotropic antenna, in dB (common practice:
// 10 log 1.64).
const DipoleDBi = 2.15

// DBdOf returns a gain over a dipole, from one over an isotropic antenna.
func DBdOf(dBi float64) float64 { return dBi - DipoleDBi }

// DBiOf returns a gain over an isotropic antenna, from one over a dipole.
func DBiOf(dBd float64) float64 { return dBd + DipoleDBi }

// DBmOf returns decibels above 1 mW; minus infinity for 0 W, and for less.
func DBmOf(watts float64) float64 { return 10 * math.Log10(math.Max(watts, 0)*1000) }

// WattsOf returns watts, from decibels above 1 mW.
func WattsOf(dBm float64) float64 { return math.Pow(10, dBm/10) / 1000 }

// RadiatedWatts returns the power that an antenna seems to radiate: the transmitter's output,
// raised by the gain and lowered by all losses between (lines, duplexer, circulator). With a
// gain in dBd it is ERP, over a dipole; with one in dBi it is EIRP.
func RadiatedWatts(output signal.Power, gainDB, lossDB float64) float64 {
	return output.Watts() * math.Pow(10, (gainDB-lossDB)/10)
}

// EIRPOf returns the equivalent isotropically radiated power, from ERP.
func EIRPOf(erpWatts float64) float64 { return erpWatts * math.Pow(10, DipoleDBi/10) }

// ERPOf returns the effective radiated power, from EIRP.
func ERPOf(eirpWatts float64) float64 { return eirpWatts / math.Pow(10, DipoleDBi/10) }
