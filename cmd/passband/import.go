package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"
	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/tables"
	"passband.example/plandiff/whole"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func newImport(a *app) *cobra.Command {
	var layout, radio string
	var write bool
	cmd := &cobra.Command{
		Use:   "import FILE...",
		Short: "Read tables, show what they change in the plan, and write it",
		Long: `Import reads tables in CSV by a layout and shows what they change in the plan
that is being edited, what that does to channels, zones and radios, and what is
found in it then. It writes nothing, unless --write is given; comments, order
and all that does not change stay as they are.

FILE is a table, or a folder with the tables of the layout. A table of one class
of radio needs --radio, since its labels are cut and its channels not all.

A table with other headers needs a layout of its own: "passband explain layout"
says how one is written.

What the tables do not have stays in the plan. A row that cannot be read is told
with row, column and what to do, and then nothing is written at all.

Where --plan names a folder that is new or empty, the tables make a plan there.

Exit status: 0 nothing blocks, 1 something blocks, 2 the work could not be done
or rows could not be read.`,
		Example: "  passband import channels.csv\n  passband import tables --radio pocket --write\n  passband import old.csv --layout old.layout --plan our-plan --write",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("import needs a table in CSV, or a folder of tables, such as: passband import channels.csv")
			}
			return nil
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveDefault
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			l, err := a.readLayout(layout)
			if err != nil {
				return err
			}
			files, err := readTables(l, args)
			if err != nil {
				return err
			}
			return a.importTables(cmd.Context(), l, radio, files, write)
		},
	}
	addForms(cmd, &a.form)
	cmd.Flags().StringVar(&layout, "layout", "", "the `file` with the layout; the neutral one if left out")
	cmd.Flags().StringVar(&radio, "radio", "", "the `key` of the class of radio that the tables are for")
	cmd.Flags().BoolVar(&write, "write", false, "write what changes into the plan")
	return cmd
}

// readTables reads the files that a person names; of a folder, those of the layout.
func readTables(l *tables.Layout, names []string) ([]tables.File, error) {
	var files []tables.File
	for _, name := range names {
		info, err := os.Stat(name)
		if err != nil {
			return nil, fmt.Errorf("the table cannot be read: %w", err)
		}
		if !info.IsDir() {
			names = []string{name}
		} else if names = tablesIn(l, name); len(names) == 0 {
			return nil, fmt.Errorf("the folder %s has none of the layout's tables; name the files", name)
		}
		for _, name := range names {
			f, err := readTable(name)
			if err != nil {
				return nil, err
			}
			files = append(files, f)
		}
	}
	return files, nil
}

func tablesIn(l *tables.Layout, dir string) []string {
	var names []string
	for _, t := range l.Tables {
		name := filepath.Join(dir, t.File)
		if info, err := os.Stat(name); err == nil && info.Mode().IsRegular() {
			names = append(names, name)
		}
	}
	return names
}

func readTable(name string) (tables.File, error) {
	f, err := os.Open(name)
	if err != nil {
		return tables.File{}, fmt.Errorf("the table cannot be read: %w", err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, plan.MaxTableSize+1))
	if err != nil {
		return tables.File{}, fmt.Errorf("the table cannot be read: %w", err)
	}
	return tables.File{Name: filepath.ToSlash(name), Data: data}, nil
}

// A ground is the plan that tables are read into.
type ground struct {
	at    *report.Origin
	dir   string
	plan  *plan.Expansion
	files map[string][]byte // none where the tables make the plan
}

// importTables shows what tables change, and writes it if it is to.
func (a *app) importTables(ctx context.Context, l *tables.Layout, radio string, files []tables.File, write bool) error {
	g, err := a.ground(ctx)
	if err != nil {
		return err
	}
	in, err := tables.Read(g.plan, radio, l, files)
	if err != nil {
		return err
	}
	d := &report.Document{New: g.at, Expansion: g.plan}
	var names []string
	if in.Plan != nil {
		texts, after, err := tables.Carry(g.files, g.plan, in)
		if err != nil {
			return err
		}
		d.Old, d.Expansion, d.Comparison = g.at, after, plandiff.Compare(g.plan, after)
		if d.Verdict, err = a.judge(ctx, g, d); err != nil {
			return err
		}
		if write && !d.Comparison.Empty() {
			if err := g.write(texts); err != nil {
				return err
			}
			names = slices.Sorted(maps.Keys(texts))
		}
	}
	d.Old = nil // it is the same place
	d.InGit = inGit(ctx, g.dir)
	if err := a.write(report.Imported(d, in, names), func(w io.Writer) error { return report.ImportedJSON(w, d, in, names) }); err != nil {
		return err
	}
	switch {
	case len(in.Problems) > 0:
		places := "1 place"
		if n := len(in.Problems); n > 1 {
			places = fmt.Sprintf("%d places", n)
		}
		return fmt.Errorf("the tables cannot be read at %s, and nothing is written", places)
	case d.Verdict.Blocks():
		return errBlocks
	}
	return nil
}

// judge judges what the tables change, and of a plan that they make all.
func (a *app) judge(ctx context.Context, g *ground, d *report.Document) (*review.Verdict, error) {
	if len(g.files) == 0 {
		return review.Check(ctx, rules.All(), d.Expansion, plan.DateOf(a.now()))
	}
	return review.Judge(ctx, rules.All(), d.Comparison, nil, plan.DateOf(a.now()))
}

// ground finds the plan that is being edited, or the folder where one is to be made.
func (a *app) ground(ctx context.Context) (*ground, error) {
	if entries, err := os.ReadDir(a.plan); errors.Is(err, fs.ErrNotExist) || err == nil && len(entries) == 0 {
		dir, err := filepath.Abs(a.plan)
		if err != nil {
			return nil, err
		}
		x, err := tables.New(filepath.Base(dir))
		return &ground{at: &report.Origin{Name: a.plan, Folder: filepath.ToSlash(a.plan)}, dir: a.plan, plan: x}, err
	}
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return nil, err
	}
	defer sides.Close()
	side, err := sides.Now(ctx)
	if err != nil {
		return nil, err
	}
	if side.Commit != nil {
		return nil, fmt.Errorf("%s is a commit, and nothing can be written into one; check the branch out and run it there", side)
	}
	x, err := a.loadSound(ctx, side)
	if err != nil {
		return nil, err
	}
	g := &ground{at: origin(side), dir: filepath.FromSlash(side.Folder), plan: x, files: map[string][]byte{}}
	for _, name := range x.Plan.Files {
		if g.files[name], err = fs.ReadFile(side.Files, name); err != nil {
			return nil, fmt.Errorf("%s cannot be read again: %w", name, err)
		}
	}
	return g, nil
}

// write puts the texts into the plan, or makes the folder of a new one.
func (g *ground) write(texts map[string][]byte) error {
	if len(g.files) > 0 {
		return g.rewrite(texts)
	}
	return whole.Folder(g.dir, func(dir string) error {
		if err := os.Mkdir(dir, 0o755); err != nil {
			return err
		}
		for name, text := range texts {
			if err := os.WriteFile(filepath.Join(dir, name), text, 0o644); err != nil {
				return err
			}
		}
		return nil
	})
}

// rewrite replaces the files of a plan that are other ones now. A table of operators may
// be new; it goes again where the others cannot be replaced.
func (g *ground) rewrite(texts map[string][]byte) (err error) {
	old := maps.Clone(texts)
	for name, text := range texts {
		if _, known := g.files[name]; known {
			continue
		}
		delete(old, name)
		file := filepath.Join(g.dir, filepath.FromSlash(name))
		if err := whole.File(file, text); err != nil {
			return err
		}
		defer func() {
			if err != nil {
				os.Remove(file)
			}
		}()
	}
	return whole.Files(g.dir, g.files, old)
}
