# shellcheck shell=bash
# What the scripts of this folder share. Source it first: it moves to the top of the checkout.

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

say() { printf '%s\n' "$*"; }

# die WHAT WHY NEXT: every error names these three.
die() {
  printf '\nerror: %s\n  why:  %s\n  next: %s\n' "$1" "$2" "$3" >&2
  exit 1
}

# stage NAME COMMAND...: runs the command and prints how long it took. The command is a program,
# not a shell function: `set -e` would be off inside a function.
stage() {
  local name=$1 begin=${EPOCHREALTIME//[.,]/} status=0 word=ok tenths
  shift
  say "== $name"
  "$@" || status=$?
  ((status == 0)) || word=FAILED
  tenths=$(((${EPOCHREALTIME//[.,]/} - begin) / 100000))
  say "== $name: $word in $((tenths / 10)).$((tenths % 10)) s"
  return "$status"
}

is_build() { [[ " release debug asan tsan fuzz " == *" $1 "* ]]; }
