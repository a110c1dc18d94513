package license

import (
	"io/fs"
	"testing"

	"passband.example/plandiff/signal"
)

// A plan of 100,000 channels asks so often.
func BenchmarkTransmit(b *testing.B) {
	us := region(b, "US")
	allowed := Query{Center: 146_520_000, Emission: FMWide(), Class: "technician"}
	denied := Query{Center: 147_995_000, Emission: FMWide(), Class: "technician"}
	input := Query{Center: 449_325_000, Emission: DMR(), Class: "technician", Station: RepeaterInput, Site: at(39.74, -104.99)}
	for _, bench := range []struct {
		name string
		q    Query
	}{{"allowed", allowed}, {"denied", denied}, {"input with a site", input}} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := range b.N {
				q := bench.q
				q.Center += signal.Hertz(i % 100)
				us.Transmit(q)
			}
		})
	}
}

func BenchmarkAt(b *testing.B) {
	de := region(b, "DE")
	b.ReportAllocs()
	for i := range b.N {
		de.At(438_650_000 + signal.Hertz(i%1000))
	}
}

func BenchmarkReadTables(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		files, err := fs.Sub(data, "data")
		if err != nil {
			b.Fatal(err)
		}
		if _, err := readLibrary(files); err != nil {
			b.Fatal(err)
		}
	}
}
