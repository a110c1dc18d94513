package rf

import (
	"fmt"
	"testing"
)

// Every value of an enumeration has words of its own, since findings print them.
func TestWords(t *testing.T) {
	seen := map[string]string{}
	for _, value := range []fmt.Stringer{
		CannotTell, Yes, No,
		CoChannel, Adjacent, Crossed,
		Uncompared, SameTone, SameColorCode, BothOpen, OneOpen, OtherKeys,
		NoRow, NotAllowed, TooNear, OnSite,
		AnyPair, BothFM, BothTones, BothDMR, Mixed, SharedPairs, OneSystem, Applies(99),
	} {
		text, kind := value.String(), fmt.Sprintf("%T %d", value, value)
		if other, twice := seen[text]; twice || text == "" {
			t.Errorf("%s and %s are both %q", kind, other, text)
		}
		seen[text] = kind
	}
}
