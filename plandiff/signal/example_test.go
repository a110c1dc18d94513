package signal_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"passband.example/plandiff/signal"
)

// A repeater's input is its output and its split, to the hertz.
func Example() {
	output, err := signal.ParseMegahertz("146.610")
	if err != nil {
		fmt.Println(err)
		return
	}
	split, err := signal.ParseSplit("-0.6")
	if err != nil {
		fmt.Println(err)
		return
	}
	input := output + signal.Hertz(split)
	fmt.Println("members send on", input, "MHz")

	text, err := json.Marshal(map[string]signal.Hertz{"input": input})
	fmt.Println(string(text), err)
	// Output:
	// members send on 146.010 MHz
	// {"input":"146.010"} <nil>
}

// An error says what is wrong and what to write, and often has a fix to offer.
func ExampleError() {
	for _, text := range []string{"146,940", "146520", "146.9400001"} {
		_, err := signal.ParseMegahertz(text)
		fmt.Println(err)
		var bad *signal.Error
		if errors.As(err, &bad) && bad.Fix != "" {
			fmt.Println("  fix:", bad.Fix)
		}
	}
	// Output:
	// frequency "146,940" has a decimal comma; write a point: 146.940
	//   fix: 146.940
	// frequency "146520" looks like kHz; write MHz: did you mean 146.520
	//   fix: 146.520
	// frequency "146.9400001" is finer than 1 Hz; write at most 6 decimals
}

// Two repeaters "separated" by 023 inverted and 047 normal are not separated.
func ExampleTone_Same() {
	a, _ := signal.ParseTone("D023I")
	b, _ := signal.ParseTone("D047N")
	fmt.Println(a == b, a.Same(b))
	// Output: false true
}

// A locator names a cell; its center is off by half a cell at most.
func ExampleGrid_Center() {
	grid, _ := signal.ParseGrid("JN58td")
	center, halfLat, halfLon := grid.Center()
	fmt.Printf("%s, give or take %s and %s degrees\n", center, halfLat, halfLon)
	// Output: 48.145833, 11.625, give or take 0.020834 and 0.041667 degrees
}

// A form that the Radio Regulations do not know is worth a warning, and can be a call.
func ExampleCallsign_ITUForm() {
	call, err := signal.ParseCallsign("c6aqrv")
	fmt.Println(call, err)
	country, _ := call.Country()
	fmt.Println(country)
	fmt.Println(call.ITUForm())
	// Output:
	// C6AQRV <nil>
	// Bahamas (Commonwealth of the)
	// callsign "C6AQRV" has no digit after its first one or two characters (ITU RR 19.68); check it against the license: some countries do assign such calls
}

// A group and a unit may have the same number; what it means differs.
func ExampleGroupID_Range() {
	fmt.Println(signal.GroupID(16776930).Range())
	fmt.Println(signal.RadioID(16776930).Range())
	// Output:
	// reserved
	// system gateway
}
