# shellcheck shell=bash
# What the scripts of this project need from Debian 12, and how it gets there. Sourced, not run.
# RP_SKIP_PACKAGES=1 leaves the system alone (another distribution, a prepared image).

start_packages=(g++ cmake ninja-build ccache libfmt-dev libexpected-dev libtomlplusplus-dev
  nlohmann-json3-dev libcli11-dev libsqlite3-dev libcpp-httplib-dev libssl-dev zlib1g-dev libbrotli-dev)
check_packages=("${start_packages[@]}" libgtest-dev libgmock-dev libbenchmark-dev libvalijson-dev
  clang-19 libclang-rt-19-dev clang-tidy-19 clang-format-19 python3 chromium coinor-cbc glpk-utils libfcl-dev libsundials-dev wrk)
# libclang-rt-19-dev holds libFuzzer and clang's sanitizer runtimes.
fuzz_packages=("${start_packages[@]}" libgtest-dev libgmock-dev clang-19 libclang-rt-19-dev)

# need_npm: what builds the pages. Where there is an npm of any origin it is used; else Debian's.
need_npm() {
  if [ "${RP_SKIP_PACKAGES:-0}" = 1 ] || command -v npm >/dev/null; then return 0; fi
  need_packages nodejs npm || echo "There is no npm: the program will be built without its pages."
}

# fetch_web_tools FOLDER: what tests/web takes from the npm registry, into a folder of the build. What
# cannot be had is said, and the test that needs it is skipped: nothing else depends on it.
fetch_web_tools() {
  local wanted=tests/web/package-lock.json
  if [ "${RP_SKIP_PACKAGES:-0}" = 1 ] || cmp -s "$wanted" "$1/package-lock.json"; then return 0; fi
  if ! command -v npm >/dev/null; then
    echo "npm is not here: the test of the pages in a browser will be skipped."
    return 0
  fi
  rm -rf "$1" && mkdir -p "$1" && cp tests/web/package.json "$1"
  if (cp "$wanted" "$1/" && cd "$1" && npm ci --no-audit --no-fund --ignore-scripts --loglevel=error); then
    return 0
  fi
  rm -rf "$1"
  echo "npm could not install axe-core: the test of the pages in a browser will be skipped."
}

# need_packages PACKAGE...: installs those that are not there; says plainly what stands in the way.
need_packages() {
  if [ "${RP_SKIP_PACKAGES:-0}" = 1 ]; then return 0; fi
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    {
      echo "This script installs Debian 12 packages with apt-get, which is not here."
      echo "Install these by your own means, then run it again with RP_SKIP_PACKAGES=1:"
      echo "  $*"
    } >&2
    return 1
  fi
  local package missing=()
  for package in "$@"; do
    if [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" != installed ]; then
      missing+=("$package")
    fi
  done
  if [ ${#missing[@]} -eq 0 ]; then return 0; fi

  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      echo "Missing Debian packages: ${missing[*]}" >&2
      echo "Run this as root, or install sudo, or install them yourself." >&2
      return 1
    fi
    as_root=(sudo)
  fi
  echo "Installing what is missing: ${missing[*]}"
  # An update that fails in part (one mirror away) need not stop us; the install decides.
  "${as_root[@]}" apt-get update -q ||
    echo "apt-get update reported a problem; trying the install all the same." >&2
  if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -q --no-install-recommends "${missing[@]}"; then
    {
      echo "apt-get could not install: ${missing[*]}"
      echo "Its own words are above. This project is built and tested on Debian 12 (bookworm)."
    } >&2
    return 1
  fi
}
