package rules

import (
	"slices"

	"passband.example/plandiff/plan"
)

// unreadIn reports whether loading found a fault between the key of a record and
// that of the next one of its section in the file. A list that could not be read
// is not empty.
func unreadIn[R plan.Record](p *plan.Plan, rows []R, i int) bool {
	from := rows[i].Place()
	return slices.ContainsFunc(p.Problems, func(b plan.Problem) bool {
		return b.At.File == from.File && b.At.Compare(from) > 0 &&
			(i+1 == len(rows) || rows[i+1].Place().File != from.File || b.At.Compare(rows[i+1].Place()) < 0)
	})
}

// unread reports whether a value that makes the channel what it is was written
// and could not be read.
func unread(p *plan.Plan, c *plan.Channel) bool {
	if r := c.Repeater; r != nil {
		d := &r.DMR
		if badFM(r.FM) || badExtra(r.Extra) || d.ColorCode.Bad || d.ReceiveList.Bad || d.Access.Bad || r.Output.Bad || r.Input.Bad || r.Split.Bad {
			return true
		}
	}
	if c.Spec == nil {
		return false
	}
	direct, _ := p.Channels.Find(c.Path) // whose frequency a channel with a path may take
	return badSpec(c.Spec) || direct != nil && badSpec(direct)
}

func badSpec(s *plan.ChannelSpec) bool {
	d := &s.DMR
	return badFM(s.FM) || badExtra(s.Extra) || s.Simplex.Bad || s.Receive.Bad || s.Path.Bad || s.Transmit.Bad ||
		d.ColorCode.Bad || d.Slot.Bad || d.Group.Bad || d.ReceiveList.Bad || d.Access.Bad
}

func badFM(f plan.FM) bool {
	return f.Present.Bad || f.ToneSend.Bad || f.ToneReceive.Bad || f.Width.Bad || f.Access.Bad
}

func badExtra(e plan.Extra) bool { return e.Power.Bad || e.Timeout.Bad || e.ScanList.Bad }
