package post

import (
	"bytes"
	"io/fs"
	"path"

	"passband.example/plandiff"
	"passband.example/plandiff/rewrite"
	"passband.example/review"
	"passband.example/review/report"
)

// offer works out the lines that would mend a finding, if it says how, if they are in
// one file, and if the diff has all of them: a forge replaces the lines commented on,
// and no others.
func (p *Proposal) offer(f review.Finding, diff Diff) (*report.Suggestion, Spot) {
	if len(f.Mend) == 0 {
		return nil, Spot{}
	}
	files, err := p.texts()
	if err != nil {
		return nil, Spot{}
	}
	mended, err := rewrite.Apply(files, p.Document.Expansion.Plan, []plandiff.Change(f.Mend))
	if err != nil || len(mended) != 1 {
		return nil, Spot{} // a person must do it
	}
	for name, now := range mended {
		s, ok := suggest(files[name], now)
		at := Spot{Path: path.Join(p.Document.New.Folder, name), Line: s.To}
		if s.From < s.To {
			at.From = s.From
		}
		if ok && s.Fits() && diff.Whole(at.Path, s.From, s.To) {
			return s, at
		}
	}
	return nil, Spot{}
}

// texts reads the files of the judged plan, once.
func (p *Proposal) texts() (map[string][]byte, error) {
	if p.files != nil {
		return p.files, nil
	}
	files := make(map[string][]byte)
	for _, name := range p.Document.Expansion.Plan.Files {
		text, err := fs.ReadFile(p.tree, name)
		if err != nil {
			return nil, err
		}
		files[name] = text
	}
	p.files = files
	return files, nil
}

// suggest gives the one run of lines that differs. Lines that are only added stand
// between two others, and there is none to replace.
func suggest(old, new []byte) (*report.Suggestion, bool) {
	was, now := bytes.SplitAfter(old, []byte("\n")), bytes.SplitAfter(new, []byte("\n"))
	head := 0
	for head < len(was) && head < len(now) && bytes.Equal(was[head], now[head]) {
		head++
	}
	tail := 0
	for tail < len(was)-head && tail < len(now)-head && bytes.Equal(was[len(was)-1-tail], now[len(now)-1-tail]) {
		tail++
	}
	from, to := head+1, len(was)-tail
	text := bytes.Join(now[head:len(now)-tail], nil)
	text, ended := bytes.CutSuffix(text, []byte("\n"))
	if from > to || len(text) > 0 && !ended { // the end of the file would change
		return &report.Suggestion{}, false
	}
	return &report.Suggestion{From: int32(from), To: int32(to), Text: string(text)}, true
}
