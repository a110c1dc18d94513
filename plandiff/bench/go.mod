module passband.example/plandiff/bench

go 1.26.0

require (
	github.com/gonvenience/ytbx v1.5.0
	github.com/google/go-cmp v0.7.0
	github.com/homeport/dyff v1.12.0
	github.com/josephburnett/jd/v2 v2.5.0
	gopkg.in/yaml.v3 v3.0.1
	passband.example v0.0.0
)

require (
	github.com/BurntSushi/toml v1.6.0 // indirect
	github.com/agnivade/levenshtein v1.2.2 // indirect
	github.com/gonvenience/bunt v1.4.3 // indirect
	github.com/gonvenience/idem v0.0.3 // indirect
	github.com/gonvenience/neat v1.3.20 // indirect
	github.com/gonvenience/term v1.0.5 // indirect
	github.com/gonvenience/text v1.0.10 // indirect
	github.com/lucasb-eyer/go-colorful v1.4.0 // indirect
	github.com/mattn/go-ciede2000 v0.0.0-20170301095244-782e8c62fec3 // indirect
	github.com/mattn/go-isatty v0.0.21 // indirect
	github.com/mitchellh/go-ps v1.0.0 // indirect
	github.com/mitchellh/hashstructure/v2 v2.0.2 // indirect
	github.com/sergi/go-diff v1.4.0 // indirect
	github.com/texttheater/golang-levenshtein v1.0.1 // indirect
	github.com/virtuald/go-ordered-json v0.0.0-20170621173500-b18e6e673d74 // indirect
	go.yaml.in/yaml/v2 v2.4.4 // indirect
	go.yaml.in/yaml/v3 v3.0.4 // indirect
	golang.org/x/sync v0.22.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/term v0.48.0 // indirect
	golang.org/x/text v0.41.0 // indirect
)

replace passband.example => ../..
