package page

import "fmt"

// count says how many there are of something.
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// is is the verb behind a count.
func is(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// more says that there are more than the page shows, in words that end with a verb.
func more(n int, thing string) string { return count(n, thing) + " more " + is(n) }
