package license

import "testing"

// The counts are those of the files, which TestRowsByConfidence holds one by one.
func TestCounts(t *testing.T) {
	tests := []struct {
		region string
		want   Counts
		why    string
	}{
		{"US", Counts{Count{61, 2, 1}, Count{71, 0, 1}, Count{16, 0, 4}, Count{114 + 96 + 12 + 3, 0, 4 + 5 + 3}}, "own table, own plan; services of the US, of the US and Canada, of ITU and of all"},
		{"DE", Counts{Count{20, 2, 0}, Count{23 + 53 + 3, 0, 2}, Count{4 + 5, 0, 1 + 1}, Count{16 + 12 + 3, 0, 5 + 3}}, "own plan, that of Region 1 and its former edition"},
		{"FR", Counts{Count{}, Count{53 + 3, 0, 2}, Count{1 + 5, 0, 1}, Count{16 + 12 + 3, 0, 5 + 3}}, "no table of its own"},
		{"NZ", Counts{Count{0, 4, 1}, Count{}, Count{0, 0, 3}, Count{12 + 3, 0, 5 + 3}}, "no plan"},
	}
	for _, tt := range tests {
		if got := region(t, tt.region).Counts(); got != tt.want {
			t.Errorf("%s: %+v, want %+v: %s", tt.region, got, tt.want, tt.why)
		}
	}
}
