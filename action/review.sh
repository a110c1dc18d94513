#!/usr/bin/env bash
# Reviews each plan of a repository. What it is to do stands in the environment, set by
# action.yml: PROGRAM PLANS POST MOST BASE HEAD SARIF. The exit status is the worst of
# all: 2 the work could not be done, 1 something blocks, 0 nothing does.
set -u

fetch() { # gets the head of a pull request as objects; nothing is checked out
  case "${GITHUB_EVENT_NAME:-}" in
    pull_request_target | workflow_run) ;;
    *) return 0 ;;
  esac
  git fetch --no-tags --quiet origin '+refs/pull/*/head:refs/passband/pull/*' ||
    echo "passband: the heads of the pull requests could not be fetched; the review says what is missing" >&2
}

review() { # of one plan
  local words=(review --plan "$1" --most "$MOST")
  if [ "$POST" = yes ]; then words+=(--post); fi
  if [ -n "$BASE" ]; then words+=(--base "$BASE"); fi
  if [ -n "$HEAD" ]; then words+=(--head "$HEAD"); fi
  if [ -n "$SARIF" ]; then words+=(--sarif "$SARIF/$(printf %s "$1" | tr -c 'A-Za-z0-9' '-').sarif"); fi
  GITHUB_OUTPUT="$outputs" "$PROGRAM" "${words[@]}"
}

sum() { # of one output over all plans
  awk -F= -v name="$1" '$1 == name { n += $2 } END { print n + 0 }' "$outputs"
}

case "$POST" in yes | no) ;; *)
  echo "passband: the input post is yes or no" >&2
  exit 2
  ;;
esac
outputs=$(mktemp)
trap 'rm -f "$outputs"' EXIT
if [ -n "$SARIF" ]; then mkdir -p "$SARIF"; fi
fetch
worst=0
while IFS= read -r plan; do
  if [ -z "$plan" ]; then continue; fi
  review "$plan"
  status=$?
  if [ "$status" -gt "$worst" ]; then worst=$status; fi
done <<<"$PLANS"

verdict=clear
if [ "$worst" -eq 1 ]; then verdict=blocked; fi
if [ "$worst" -lt 2 ] && [ -n "${GITHUB_OUTPUT:-}" ]; then
  printf 'verdict=%s\nblock=%s\nwarn=%s\n' "$verdict" "$(sum block)" "$(sum warn)" >>"$GITHUB_OUTPUT"
fi
exit "$worst"
