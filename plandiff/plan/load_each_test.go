package plan_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"reflect"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// Plans that are read together are those that are read alone.
func TestLoadEachIsLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := written(t, plantest.Plan(t))
		new := written(t, plantest.Plan(t))
		if rapid.Bool().Draw(t, "an edit") {
			new = map[string][]byte{plan.OperatorsFile: old[plan.OperatorsFile], plan.RootFile: spoiledSomewhere(t, old[plan.RootFile])}
		}
		all := []fs.FS{plantest.FS(old), plantest.FS(new), plantest.FS(old)}
		for i, loaded := range plan.LoadEach(context.Background(), all...) {
			alone, err := plan.Load(context.Background(), all[i])
			if loaded.Err != nil || err != nil || !reflect.DeepEqual(loaded.Plan, alone) {
				t.Fatalf("plan %d differs (%v, %v): %s", i, loaded.Err, err, plantest.Equal(loaded.Plan, alone))
			}
		}
	})
}

// A file that says the same in both is read once, but not under another name: its
// places are others.
func TestLoadEachReadsOnce(t *testing.T) {
	groups := []byte("groups:\n  local: {id: 99931}\n")
	old := plantest.FS(map[string][]byte{"plan.yaml": []byte("plan: One\n"), "a.yaml": groups})
	new := plantest.FS(map[string][]byte{"plan.yaml": []byte("plan: Two\n"), "a.yaml": groups})
	moved := plantest.FS(map[string][]byte{"plan.yaml": []byte("plan: Two\n"), "b.yaml": groups})
	loaded := plan.LoadEach(context.Background(), old, new, moved)
	first, second, third := loaded[0].Plan.Groups.All()[0], loaded[1].Plan.Groups.All()[0], loaded[2].Plan.Groups.All()[0]
	if first != second || loaded[1].Plan.Header.Title.V != "Two" {
		t.Error("the same file was read twice, or another was not")
	}
	if third == first || third.Place().File != "b.yaml" {
		t.Errorf("the moved file has the places of the old: %v", third.Place())
	}
}

// Two rows that say the same are told apart in each plan, though both read one file.
func TestLoadEachNumbersRows(t *testing.T) {
	row := "9990001,N0QRV,Ann\n"
	both := map[string][]byte{"plan.yaml": nil, "operators.csv": []byte("id,callsign,name\n" + row + row)}
	third := map[string][]byte{"plan.yaml": nil, "operators.csv": both["operators.csv"], "a/operators.csv": []byte("id,callsign,name\n" + row)}
	var keys []string
	for _, loaded := range plan.LoadEach(context.Background(), plantest.FS(both), plantest.FS(third), plantest.FS(both)) {
		for _, o := range loaded.Plan.Operators.All() {
			keys = append(keys, o.Key.V)
		}
	}
	const one, two, three = "9990001/N0QRV/Ann", "9990001#2/N0QRV/Ann", "9990001#3/N0QRV/Ann"
	if want := []string{one, two, one, two, three, one, two}; !reflect.DeepEqual(keys, want) {
		t.Errorf("the rows are %v, want %v", keys, want)
	}
}

func TestLoadEachTellsErrors(t *testing.T) {
	good := plantest.FS(map[string][]byte{"plan.yaml": nil})
	loaded := plan.LoadEach(context.Background(), plantest.FS(nil), good)
	if !errors.Is(loaded[0].Err, plan.ErrNoPlan) || loaded[0].Plan != nil || loaded[1].Err != nil || loaded[1].Plan == nil {
		t.Errorf("got %+v", loaded)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := plan.Load(ctx, good); !errors.Is(err, context.Canceled) {
		t.Errorf("a load that was called off says %v", err)
	}
}

// However the files are shared out among the workers, the same comes out.
func TestLoadNeverDependsOnTiming(t *testing.T) {
	files := map[string][]byte{"plan.yaml": []byte("plan: Many\n")}
	for i := range 40 {
		files[fmt.Sprintf("f%02d.yaml", i)] = fmt.Appendf(nil, "groups:\n  g%d: {id: %d}\n  twice: {id: 1}\n  bad: {id: x, %d: y}\n", i, 99931+i, i)
	}
	first := plantest.Load(t, files)
	if len(first.Problems) < 100 || first.Groups.Len() != 42 {
		t.Fatalf("%d problems, %d groups", len(first.Problems), first.Groups.Len())
	}
	for range 100 {
		if again := plantest.Load(t, files); !reflect.DeepEqual(first, again) {
			t.Fatal("the same files gave another plan")
		}
	}
}
