module passband.example/plandiff/plan/suite

go 1.26.0

require (
	github.com/goccy/go-yaml v1.19.2
	gopkg.in/yaml.v3 v3.0.1
	passband.example v0.0.0
)

require (
	github.com/agnivade/levenshtein v1.2.2 // indirect
	github.com/sergi/go-diff v1.4.0 // indirect
	golang.org/x/text v0.41.0 // indirect
)

replace passband.example => ../../..
