package tables

import (
	"strconv"

	"passband.example/plandiff/plan"
)

func first(texts []string) string {
	if len(texts) == 0 {
		return ""
	}
	return texts[0]
}

func splitOfChannel(c *plan.Channel) []string {
	if c.Transmit == 0 || c.Receive == 0 {
		return nil
	}
	return apart(c.Receive, c.Transmit)
}

func direction(split string) string {
	switch {
	case split == "":
		return ""
	case split == "0":
		return "none"
	case split[0] == '-':
		return "down"
	}
	return "up"
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func width(c *plan.Channel) string {
	switch {
	case c.Mode != plan.ModeFM:
		return ""
	case c.Wide:
		return "wide"
	}
	return "narrow"
}

func colorCode(c *plan.Channel) string {
	if !c.ColorCode.IsSet() {
		return ""
	}
	return c.ColorCode.V.String()
}

func slot(c *plan.Channel) string {
	if c.Mode != plan.ModeDMR {
		return ""
	}
	return c.Slot.String()
}

func groupNumber(c *plan.Channel) string {
	if c.Group == nil || !c.Group.ID.IsSet() {
		return ""
	}
	return c.Group.ID.V.String()
}

func groupCalled(v *view, c *plan.Channel) string {
	if c.GroupKey == "" {
		return ""
	}
	return v.groupLabel(c.GroupKey)
}

func groupCall(c *plan.Channel) string {
	if c.Group == nil {
		return ""
	}
	return c.Group.Call.Or("group")
}

func listens(v *view, c *plan.Channel) string {
	if h := v.listOf(c); h != nil {
		return h.shown
	}
	return ""
}

func scanListCalled(v *view, key string) string {
	if s, ok := v.x.Plan.ScanLists.Find(key); ok {
		return v.called(s)
	}
	return key
}

func seconds(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func privacy(c *plan.Channel) string {
	if c.Mode != plan.ModeDMR {
		return ""
	}
	return yesNo(c.Privacy)
}

func repeaterKey(c *plan.Channel) string {
	if c.Repeater == nil {
		return ""
	}
	return c.Repeater.Key.V
}

func repeaterCalled(c *plan.Channel) string {
	if c.Repeater == nil {
		return ""
	}
	return c.Repeater.Called()
}

func callsign(c *plan.Channel) string {
	if c.Repeater == nil {
		return ""
	}
	return string(c.Repeater.Callsign.Or(""))
}

func eachZone(v *view, it item, show func(*plan.Zone) string) []string {
	zones := v.zones[it.channel]
	texts := make([]string, len(zones))
	for i, z := range zones {
		texts[i] = show(z)
	}
	return texts
}
