package merge

import (
	"bytes"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/memory"
)

// A shelf holds the version of each file that was read last. Versions of a plan are
// much alike: of the next one only the records that differ are read.
type shelf map[string]sheet

// A sheet is a file and its text.
type sheet struct {
	file *plan.File
	text []byte
}

// load reads the plan that these files hold.
func (s shelf) load(files Files) (*plan.Plan, error) {
	names, refused, err := plan.FindFiles(memory.Texts(files))
	if err != nil {
		return nil, err
	}
	read := make([]*plan.File, len(names))
	for i, name := range names {
		read[i] = s.read(name, files[name])
	}
	return plan.Compose(refused, read...), nil
}

func (s shelf) read(name string, text []byte) *plan.File {
	last, known := s[name]
	switch {
	case !known:
		last.file = plan.ParseFile(name, text)
	case !bytes.Equal(last.text, text):
		last.file = last.file.Amend(text)
	}
	s[name] = sheet{last.file, text}
	return last.file
}
