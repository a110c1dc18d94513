package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// actionFolder holds the actions and the example workflows.
const actionFolder = "../../action"

type actionStep struct {
	Uses, Run, Shell string
	Env              map[string]string
	With             map[string]string
}

// TestActions holds the actions and workflows against what their documentation asks
// for and a linter does not see (docs.github.com, metadata syntax and secure use): a
// shell for each run, actions pinned by a whole commit, and nothing of an event put
// into a script.
func TestActions(t *testing.T) {
	pinned := regexp.MustCompile(`^[\w./-]+@[0-9a-f]{40}$`)
	files, err := filepath.Glob(actionFolder + "/examples/*.yml")
	if err != nil {
		t.Fatal(err)
	}
	files = append(files, actionFolder+"/action.yml", actionFolder+"/setup/action.yml")
	steps := 0
	for _, name := range files {
		var file struct {
			Permissions map[string]string
			Runs        struct {
				Using string
				Steps []actionStep
			}
			Jobs map[string]struct {
				Timeout int `yaml:"timeout-minutes"`
				Steps   []actionStep
			}
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := yaml.Unmarshal(text, &file); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		composite := file.Runs.Using == "composite"
		all := file.Runs.Steps
		for _, job := range file.Jobs {
			all = append(all, job.Steps...)
			if job.Timeout == 0 || file.Permissions["contents"] == "" {
				t.Errorf("%s: a job without an end, or permissions that are not named", name)
			}
		}
		for _, s := range all {
			steps++
			if s.Uses != "" && !pinned.MatchString(s.Uses) {
				t.Errorf("%s: %s is not pinned by a commit", name, s.Uses)
			}
			if s.Run != "" && (composite && s.Shell == "" || strings.Contains(s.Run, "${{")) {
				t.Errorf("%s: a script without a shell, or with a text of the event in it:\n%s", name, s.Run)
			}
			if strings.Contains(s.With["ref"], "head") {
				t.Errorf("%s: the head is checked out", name)
			}
		}
	}
	if steps < 10 {
		t.Errorf("%d steps were found", steps)
	}
}

// TestActionInputs wants each input handed on by name: a composite action gets no
// INPUT variables.
func TestActionInputs(t *testing.T) {
	var action struct {
		Inputs map[string]struct {
			Description string
			Default     *string
		}
		Outputs map[string]struct{ Description, Value string }
		Runs    struct{ Steps []actionStep }
	}
	text, err := os.ReadFile(actionFolder + "/action.yml")
	if err != nil {
		t.Fatal(err)
	}
	if err := yaml.Unmarshal(text, &action); err != nil {
		t.Fatal(err)
	}
	script, err := os.ReadFile(actionFolder + "/review.sh")
	if err != nil {
		t.Fatal(err)
	}
	last := action.Runs.Steps[len(action.Runs.Steps)-1]
	handed := map[string]bool{}
	for variable, value := range last.Env {
		if input, ok := strings.CutPrefix(value, "${{ inputs."); ok {
			handed[strings.TrimSuffix(input, " }}")] = true
		}
		if variable != "GITHUB_TOKEN" && !strings.Contains(string(script), "$"+variable) {
			t.Errorf("review.sh does not heed %s", variable)
		}
	}
	for name, input := range action.Inputs {
		if !handed[name] || input.Description == "" || input.Default == nil {
			t.Errorf("the input %s is not handed on, or not described", name)
		}
	}
	for name, output := range action.Outputs {
		if output.Value != "${{ steps.review.outputs."+name+" }}" || output.Description == "" || !strings.Contains(string(script), name+"=") {
			t.Errorf("the output %s is not set", name)
		}
	}
}
