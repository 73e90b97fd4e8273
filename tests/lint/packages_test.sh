#!/usr/bin/env bash
# tools/packages.sh against stand-ins for dpkg-query, apt-get, sudo and id: it installs only what is
# missing, updates first, says what it could not do, and never calls sudo as root.
set -euo pipefail
cd "$(dirname "$(readlink -f "${BASH_SOURCE[0]}")")/../.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bash_path=$(command -v bash)

stand_in() { printf '#!%s\n%s\n' "$bash_path" "$2" >"$work/bin/$1" && chmod +x "$work/bin/$1"; }
fresh() {
  rm -rf "$work/bin" && mkdir "$work/bin" && : >"$work/calls"
  stand_in dpkg-query "for last; do :; done; case \$last in have-*) echo installed;; gone-*) echo config-files;; *) exit 1;; esac"
  stand_in apt-get "echo \"apt-get \$*\" >>'$work/calls'; [[ \$* != *broken* ]]"
  stand_in sudo "echo sudo >>'$work/calls'; exec \"\$@\""
  stand_in id 'echo 0'
  stand_in env 'shift; exec "$@"'
}
status=0
run() { # runs need_packages with nothing but the stand-ins on the path
  status=0
  PATH="$work/bin" RP_SKIP_PACKAGES=${skip:-0} "$bash_path" -c \
    '. tools/packages.sh; need_packages "$@"' run "$@" >"$work/out" 2>&1 || status=$?
}
want() { # want STATUS CALLS [WORDS]
  local calls
  calls=$(paste -sd '|' "$work/calls")
  if [ $status -ne "$1" ] || [ "$calls" != "$2" ] || ! grep -qF -- "${3:-}" <(cat "$work/out"; echo); then
    echo "line ${BASH_LINENO[0]}: status $status (wanted $1), calls '$calls' (wanted '$2'), said:"
    cat "$work/out"
    exit 1
  fi
}

fresh; run have-a have-b; want 0 ""
fresh; run have-a new-b gone-c
want 0 "apt-get update -q|apt-get install -y -q --no-install-recommends new-b gone-c" "new-b gone-c"
fresh; stand_in id 'echo 1000'; run new-a
want 0 "sudo|apt-get update -q|sudo|apt-get install -y -q --no-install-recommends new-a"
fresh; stand_in id 'echo 1000'; rm "$work/bin/sudo"; run new-a; want 1 "" "Run this as root"
fresh; rm "$work/bin/apt-get"; run new-a; want 1 "" "RP_SKIP_PACKAGES=1"
fresh; run broken-a
want 1 "apt-get update -q|apt-get install -y -q --no-install-recommends broken-a" "could not install: broken-a"
fresh; skip=1; run new-a; want 0 ""
echo "packages: as expected"
