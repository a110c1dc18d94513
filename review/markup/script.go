package markup

import "encoding/json"

// Style is a style sheet of the program's own, which must not end its element.
func Style(css string) *Node { return raw("style", css) }

// Script is a script of the program's own, which must not end its element.
func Script(js string) *Node { return raw("script", js) }

// JSON is data for a script, which finds it by its ID. It is not run, and the JSON of Go writes
// <, > and & as escapes, so that no text in it ends the element or begins a comment.
func JSON(id string, data any) *Node {
	text, err := json.Marshal(data)
	if err != nil {
		return &Node{kind: failed, text: err.Error()}
	}
	return raw("script", string(text), Attr("type", "application/json"), Attr("id", id))
}

// raw is an element whose text a browser takes as it is (WHATWG, HTML, section 13.1.2.1).
func raw(name, text string, attributes ...*Node) *Node {
	return &Node{kind: element, name: name, inside: append(attributes, &Node{kind: verbatim, text: text})}
}
