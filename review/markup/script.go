package markup

import "encoding/json"

// Style is a style sheet of the program's own, which must not end its element.
func Style(css string) *Node { return El("style", &Node{kind: verbatim, text: css}) }

// Script is a script of the program's own, which must not end its element.
func Script(js string) *Node { return El("script", &Node{kind: verbatim, text: js}) }

// JSON is data for a script, which finds it by its ID. It is not run, and the JSON of Go writes
// <, > and & as escapes, so that no text in it ends the element or begins a comment.
func JSON(id string, data any) *Node {
	text, err := json.Marshal(data)
	if err != nil {
		return &Node{kind: failed, text: err.Error()}
	}
	return El("script", Attr("type", "application/json"), Attr("id", id), &Node{kind: verbatim, text: string(text)})
}
