package plandiff

import (
	"github.com/sergi/go-diff/diffmatchpatch"
	"passband.example/plandiff/signal"
)

// A Piece is a part of a text that changed.
type Piece struct {
	Op   StepOp // Came, Went, or 0 for what stayed
	Text string
}

// TextPieces splits a changed label or note into what stayed, went and came, in
// pieces that a person can read.
func TextPieces(old, new string) []Piece {
	dmp := diffmatchpatch.New()
	dmp.DiffTimeout = 0 // the same answer on every machine; texts are short
	var pieces []Piece
	for _, d := range dmp.DiffCleanupSemantic(dmp.DiffMain(old, new, false)) {
		piece := Piece{Text: d.Text}
		switch d.Type {
		case diffmatchpatch.DiffDelete:
			piece.Op = Went
		case diffmatchpatch.DiffInsert:
			piece.Op = Came
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

// hertz gives the frequency that an edit holds, or zero.
func hertz(texts []string) int64 {
	if len(texts) != 1 {
		return 0
	}
	f, err := signal.ParseMegahertz(texts[0])
	if err != nil {
		return 0
	}
	return int64(f)
}
