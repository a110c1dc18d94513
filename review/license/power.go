package license

// PowerKind is what a power limit measures. Unlike kinds are never compared.
type PowerKind uint8

const (
	NoPower  PowerKind = iota // the row sets no limit
	PEP                       // peak envelope power of the transmitter (RR 1.157)
	Carrier                   // carrier power of the transmitter (RR 1.159)
	Mean                      // mean power of the transmitter (RR 1.158)
	ERP                       // radiated, against a half-wave dipole (RR 1.162)
	EIRP                      // radiated, against an isotropic antenna (RR 1.161)
	Unstated                  // the text that was read does not say
)

var powerKindNames = names[PowerKind]{"", "PEP", "carrier", "mean", "ERP", "EIRP", "unstated"}

// String returns the word of the tables, empty for NoPower.
func (k PowerKind) String() string { return powerKindNames.of(k) }

// dipole is how much more an EIRP is than the ERP of the same station: 2.15 dB.
const dipole = 1.640589773

// overPower compares what q gives with the limit of r, like with like. It returns Allowed
// where nothing is over or nothing is known, and Doubtful where the figures are over but of
// kinds that can't be compared.
//
// The transmitter output of a constant-envelope emission is its PEP and its carrier
// power at once, by the definitions of RR 1.157 and 1.159. It is its mean power too while the
// signal is continuous, which a time slot is not.
func (q Query) overPower(r *Row) Outcome {
	over := q.Output > r.MaxPower
	steady := q.Emission.constantEnvelope()
	switch r.PowerKind {
	case PEP:
		return deniedIf(over)
	case Carrier:
		return overIf(over, steady)
	case Mean:
		return overIf(over, steady && q.Emission.symbol(1) == '3')
	case ERP:
		if q.ERP != 0 {
			return deniedIf(q.ERP > r.MaxPower)
		}
	case EIRP:
		if q.ERP != 0 {
			return deniedIf(dipole*float64(q.ERP) > float64(r.MaxPower))
		}
	case Unstated:
		over = over || q.ERP > r.MaxPower
	default:
		return Allowed
	}
	return overIf(over, false)
}

func deniedIf(over bool) Outcome { return overIf(over, true) }

func overIf(over, comparable bool) Outcome {
	switch {
	case !over:
		return Allowed
	case comparable:
		return Denied
	default:
		return Doubtful
	}
}

// Limit returns the power limit with what it measures: 1500 W PEP; empty if there is none.
func (r *Row) Limit() string {
	switch r.PowerKind {
	case NoPower:
		return ""
	case Unstated:
		return r.MaxPower.String() + " (of a kind that the text read does not state)"
	default:
		return r.MaxPower.String() + " " + r.PowerKind.String()
	}
}
