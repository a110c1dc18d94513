package e2e

import "testing"

// TestHostile opens pages whose every text would run a script, if it could.
func TestHostile(t *testing.T) {
	for _, s := range []string{
		`<script>window.ran=1</script>`, `</script><script>window.ran=1</script>`, `"><img src=x onerror=window.ran=1>`, `</title></style><svg onload=window.ran=1>`,
		`</desc></title></svg><iframe srcdoc="<script>parent.ran=1</script>">`, `' onmouseover='window.ran=1`, `javascript:window.ran=1`, `${window.ran=1}`, `<!--<script>`, `<base href=//x.example><link rel=stylesheet href=//x.example/a.css>`,
		`</table><form action=//x.example><input autofocus onfocus=window.ran=1>`,
	} {
		b := open(t, change(t, withText("x"), withText(s)), desk)
		if got := ask[string](b, `document.querySelector("h1").textContent`); got != s {
			t.Errorf("%q is shown as %q", s, got)
		}
		if ask[bool](b, `"ran" in window`) {
			t.Errorf("%q ran", s)
		}
		if found := ask[string](b, `[...document.querySelectorAll("img, iframe, base, link, svg[onload], form[action], [onmouseover], [onfocus]")].map(e => e.outerHTML).join(" ")`); found != "" {
			t.Errorf("%q became %s", s, found)
		}
		if got := ask[string](b, `document.getElementById("channel-table").tBodies[0].rows[0].cells[1].textContent`); got == "" {
			t.Errorf("%q: the script did not fill the table", s)
		}
		b.quiet()
	}
}
