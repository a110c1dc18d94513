package e2e

// What no schema can say.
const (
	oneFile   = "one schema serves all files of a plan, and these keys belong into plan.yaml alone"
	twice     = "a validator sees the last of two equal keys, if its YAML reader lets both pass"
	twiceOver = "that two items of a list say the same of two keys is no rule of JSON Schema"
	ends      = "JSON Schema compares no two parts of a text"
	spelling  = "a validator sees the number and not how it was written"
	documents = "a validator sees one document of a file"
	yamlOnly  = "tags and the size of what aliases repeat are gone when a validator sees the value"
	summed    = "JSON Schema adds no two values"
)

// differences are the files of the corpus that the loader refuses and the schema does not,
// each with the reason.
var differences = map[string]string{
	"review/rules/testdata/bad-syntax/kinds.txtar d.yaml":                     documents,
	"review/rules/testdata/channel-fits-no-radio/unread-band.txtar plan.yaml": ends,
	"review/rules/testdata/duplicate-key/kinds.txtar plan.yaml":               twice,
	"review/rules/testdata/split-disagrees/unread.txtar example.yaml":         spelling,
	"review/rules/testdata/unknown-key/kinds.txtar north.yaml":                oneFile,
	"testdata/load/duplicates.txtar a.yaml":                                   twice,
	"testdata/load/duplicates.txtar b/z.yaml":                                 twice,
	"testdata/load/duplicates.txtar plan.yaml":                                twiceOver,
	"testdata/load/header.txtar other.yaml":                                   oneFile,
	"testdata/differ.txtar tag.yaml":                                          yamlOnly,
	"testdata/differ.txtar zeros.yaml":                                        spelling,
	"testdata/differ.txtar exponent.yaml":                                     spelling,
	"testdata/differ.txtar decimals.yaml":                                     spelling,
	"testdata/differ.txtar tone.yaml":                                         spelling,
	"testdata/differ.txtar lost.yaml":                                         summed,
}
