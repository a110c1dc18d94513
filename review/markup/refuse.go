package markup

import (
	"fmt"
	"strings"
)

// words are names between spaces.
type words string

func (w words) has(name string) bool {
	return strings.Contains(string(w), " "+strings.ToLower(name)+" ")
}

// actingElements are those that run or fetch something, or change where links lead (WHATWG, HTML,
// sections 4.2, 4.8 and 4.12; SVG 2, chapter 5).
const actingElements words = " applet audio base embed feimage foreignobject frame iframe image img link object picture script source style track use video "

// actingAttributes are those by which a browser runs, fetches or sends something, beside those
// that begin with "on" (WHATWG, HTML, index of attributes; SVG 2, section 16.1).
const actingAttributes words = " action archive background cite classid codebase data formaction imagesrcset longdesc manifest ping poster profile src srcdoc srcset style usemap xlink:href xml:base "

// actingAttribute reports whether a browser would do something by an attribute. A link within the
// page is no such thing.
func actingAttribute(name, value string) bool {
	if strings.EqualFold(name, "href") {
		return !strings.HasPrefix(value, "#")
	}
	return strings.HasPrefix(strings.ToLower(name), "on") || actingAttributes.has(name)
}

func refused(what, name string) *Node {
	return &Node{kind: failed, text: fmt.Sprintf("the %s %s would run, fetch or follow something", what, name)}
}
