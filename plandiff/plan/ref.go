package plan

import (
	"fmt"
	"maps"
	"strings"
)

// A Ref says what the text of a field refers to.
type Ref uint8

// What a field may refer to.
const (
	NoRef          Ref = iota
	RefGroup           // the key of a group
	RefReceiveList     // the key of a receive list, or slot, repeater, none
	RefScanList        // the key of a scan list
	RefZone            // the key of a zone
	RefEntry           // a channel, a talk path, a pattern or zone:key
	RefCall            // the key of a group, a callsign or a radio ID
	RefRepeater        // the key of a repeater
	RefParty           // the key of a repeater, or a callsign
	RefAcceptance      // what an acceptance is about: a key, a talk path, "kind key"
)

// The words that a receive_list may be besides the key of a list.
const (
	ListenSlot     = "slot"
	ListenRepeater = "repeater"
	ListenNone     = "none"
)

// zonePrefix marks an entry that stands for the channels of another zone.
const zonePrefix = "zone:"

// parseEntry reads an entry of a zone or a scan list by its form alone; whether
// there is such a channel is for Expand to find.
func parseEntry(text string) (string, error) {
	if key, ok := strings.CutPrefix(text, zonePrefix); ok {
		if _, err := parseKey(key); err != nil {
			return "", fmt.Errorf("%q does not name a zone: %w", clip(text), err)
		}
		return text, nil
	}
	parts := strings.Split(text, "/")
	if len(parts) > 3 {
		return "", fmt.Errorf("%q is not a talk path; write repeater/slot/group, repeater/fm or the key of a channel", clip(text))
	}
	for _, part := range parts {
		if part == "*" && len(parts) > 1 {
			continue
		}
		if _, err := parseKey(part); err != nil {
			return "", fmt.Errorf("%q does not name a channel; write the key of a channel, a talk path such as ridge/1/statewide, or zone: and a key", clip(text))
		}
	}
	return text, nil
}

// parsePath reads what stands for one channel: an entry that is neither a
// pattern nor a zone.
func parsePath(text string) (string, error) {
	if strings.Contains(text, "*") || strings.HasPrefix(text, zonePrefix) {
		return "", fmt.Errorf("%q stands for several channels, and one is needed; write a talk path such as ridge/1/statewide, or the key of a channel", clip(text))
	}
	return parseEntry(text)
}

// Renames tells for each kind which old key is which new key now.
type Renames map[Thing]string

// Key gives the new key of a thing, which is the old one if it was not renamed.
func (r Renames) Key(kind Kind, key string) string {
	if now, ok := r[Thing{kind, key}]; ok {
		return now
	}
	return key
}

// Then gives the renames from the old plan of r to the new one of next.
func (r Renames) Then(next Renames) Renames {
	both := maps.Clone(next)
	if both == nil {
		both = Renames{}
	}
	for old, key := range r {
		both[old] = next.Key(old.Kind, key)
	}
	return both
}

// Translate writes a reference of the old plan in the keys of the new one.
func (r Renames) Translate(ref Ref, text string) string {
	if len(r) == 0 {
		return text
	}
	switch ref {
	case RefGroup:
		return r.Key(KindGroup, text)
	case RefReceiveList:
		return r.Key(KindReceiveList, text)
	case RefScanList:
		return r.Key(KindScanList, text)
	case RefZone:
		return r.Key(KindZone, text)
	case RefEntry:
		return r.entry(text)
	case RefCall:
		return r.Key(KindGroup, text)
	case RefRepeater, RefParty:
		return r.Key(KindRepeater, text)
	case RefAcceptance:
		return r.about(text)
	}
	return text
}

func (r Renames) entry(text string) string {
	if key, ok := strings.CutPrefix(text, zonePrefix); ok {
		return zonePrefix + r.Key(KindZone, key)
	}
	repeater, rest, ok := strings.Cut(text, "/")
	if !ok {
		return r.Key(KindChannel, text)
	}
	slot, group, whole := strings.Cut(rest, "/")
	nowRepeater, nowGroup := r.Key(KindRepeater, repeater), group
	if whole && !strings.Contains(group, "/") {
		nowGroup = r.Key(KindGroup, group)
	}
	switch {
	case nowRepeater == repeater && nowGroup == group: // most
		return text
	case whole:
		return nowRepeater + "/" + slot + "/" + nowGroup
	}
	return nowRepeater + "/" + rest
}

// Follow reports whether a reference in the field of r, a record of the old plan, is
// written with another key now.
func (r Renames) Follow(f *Field, old Record) bool {
	follow := false
	f.each(old, func(text string, _ Place) { follow = follow || r.Translate(f.Ref, text) != text })
	return follow
}

// targets gives the things whose keys stand in a reference, or false where that cannot be
// told from its text.
func (ref Ref) targets(text string) ([]Thing, bool) {
	switch ref {
	case RefGroup:
		return []Thing{{KindGroup, text}}, true
	case RefReceiveList:
		if text == ListenSlot || text == ListenRepeater || text == ListenNone {
			return nil, true
		}
		return []Thing{{KindReceiveList, text}}, true
	case RefScanList:
		return []Thing{{KindScanList, text}}, true
	case RefZone:
		return []Thing{{KindZone, text}}, true
	case RefRepeater:
		return []Thing{{KindRepeater, text}}, true
	case RefEntry:
		return entryTargets(text), true
	}
	return nil, false
}

func entryTargets(text string) []Thing {
	if key, ok := strings.CutPrefix(text, zonePrefix); ok {
		return []Thing{{KindZone, key}}
	}
	parts := strings.Split(text, "/")
	if len(parts) == 1 {
		return []Thing{{KindChannel, text}}
	}
	var targets []Thing
	if parts[0] != "*" {
		targets = append(targets, Thing{KindRepeater, parts[0]})
	}
	if len(parts) == 3 && parts[2] != "*" {
		targets = append(targets, Thing{KindGroup, parts[2]})
	}
	return targets
}

// about translates what an acceptance names: "zone valley", a talk path, or a
// bare key, which is taken for the first kind that has it.
func (r Renames) about(text string) string {
	for kind := KindRepeater; kind <= KindRadio; kind++ {
		if key, ok := strings.CutPrefix(text, kind.String()+" "); ok {
			return kind.String() + " " + r.Key(kind, key)
		}
	}
	if strings.Contains(text, "/") {
		return r.entry(text)
	}
	for kind := KindRepeater; kind <= KindRadio; kind++ {
		if now, ok := r[Thing{kind, text}]; ok {
			return now
		}
	}
	return text
}
