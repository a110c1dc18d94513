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
		AccessImpolite,
		AllCallNumber,
		AllCallPartition,
		BadSyntax,
		BadValue,
		BandPlan,
		BandPlanLaw,
		BesideCalling,
		CallingFrequency,
		CallsignForm,
		CallsignSeriesUnknown,
		ChannelFitsNoRadio,
		ChannelInNoZone,
		ChannelUnclear,
		CircularReference,
		ClassNotEntitled,
		ClubClaim,
		ColorCode15,
		CutOffDecimals,
		DCSNotStandard,
		DCSSameSignal,
		DMRIncomplete,
		DanglingReference,
		DuplicateChannel,
		DuplicateKey,
		EmissionNotAllowed,
		EightDigits,
		EmptyScanList,
		EmptyZone,
		FileRefused,
		GroupIDMissing,
		GroupIDReserved,
		GroupIDTwice,
		GroupOnBothSlots,
		GroupTwiceOnSlot,
		HeaderIncomplete,
		InputIsOutput,
		LabelCharacters,
		LabelCollision,
		LabelTooLong,
		LabelTwiceInZone,
		LicenseRowUnusable,
		LicenseUnknown,
		MemoryFull,
		MemoryNearlyFull,
		MixedFields,
		ModeMissing,
		NearBandEdge,
		OffBand,
		OffBandDoubtful,
		OffRaster,
		OtherService,
		OutputMissing,
		PathInNoZone,
		PlaceBarred,
		PlaceUnknown,
		PlanTooLarge,
		PolicyChanged,
		PowerOverLimit,
		PowerUnclear,
		PrivacyDoubtful,
		PrivacyOnAmateur,
		PrivateInReceiveList,
		RadioHoldsNothing,
		RadioIDCountry,
		RadioIDCustom,
		RadioIDReserved,
		RadioIDShared,
		RadioIDShort,
		RadioIDSixDigits,
		RegionUnknown,
		RegionWithoutTable,
		RepeaterNotAllowed,
		RepeaterTwice,
		ScanPriorityMissing,
		SimplexOnInput,
		SplitDisagrees,
		SplitMissing,
		SplitReversed,
		SplitUnusual,
		TimeoutTooLong,
		ToneDeaf,
		ToneNotStandard,
		TonesTooClose,
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
