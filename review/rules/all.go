package rules

import (
	"slices"
	"strings"

	"passband.example/review"
)

// All gives every rule, in the order of their IDs. Those whose faults loading
// finds have a page and no Run.
func All() []*review.Rule {
	all := []*review.Rule{
		AcceptanceExpired,
		AcceptanceIncomplete,
		AcceptanceUnused,
		BadSyntax,
		BadValue,
		CallsignForm,
		ChannelFitsNoRadio,
		ChannelInNoZone,
		ChannelUnclear,
		CircularReference,
		ColorCode15,
		DMRIncomplete,
		DanglingReference,
		DuplicateChannel,
		DuplicateKey,
		EmptyScanList,
		EmptyZone,
		FileRefused,
		GroupIDMissing,
		GroupIDTwice,
		GroupOnBothSlots,
		GroupTwiceOnSlot,
		HeaderIncomplete,
		InputIsOutput,
		LabelCharacters,
		LabelCollision,
		LabelTooLong,
		LabelTwiceInZone,
		LicenseUnknown,
		MemoryFull,
		MemoryNearlyFull,
		MixedFields,
		ModeMissing,
		OffBand,
		OffBandDoubtful,
		OutputMissing,
		PathInNoZone,
		PlanTooLarge,
		PolicyChanged,
		PrivateInReceiveList,
		RadioHoldsNothing,
		RadioIDShared,
		RegionUnknown,
		RegionWithoutTable,
		RepeaterNotAllowed,
		ScanPriorityMissing,
		SplitDisagrees,
		SplitMissing,
		TransmitOnReceiveChannel,
		TwiceInZone,
		UnknownKey,
		UnknownRule,
		Unused,
		ZoneFitsNoRadio,
	}
	slices.SortFunc(all, func(a, b *review.Rule) int { return strings.Compare(a.ID, b.ID) })
	return all
}

// Find gives the rule with this ID.
func Find(id string) (*review.Rule, bool) {
	all := All()
	i := slices.IndexFunc(all, func(r *review.Rule) bool { return r.ID == id })
	if i < 0 {
		return nil, false
	}
	return all[i], true
}
