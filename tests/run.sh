#!/bin/bash
# Builds everything, optimised, and runs every test. Says how long each part took; exits 0 only if
# every test ran and passed.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source cases/install_packages.sh

# part NAME COMMAND...: runs it and says how long it took.
part() {
  local name=$1 start=$SECONDS status=0
  shift
  echo "== $name"
  "$@" || status=$?
  echo "== $name: $((SECONDS - start)) s"
  return "$status"
}

build() {
  cmake --preset release --log-level=WARNING
  cmake --build --preset release -- --quiet
}

part "packages" install_packages \
  "${build_packages[@]}" "${picture_packages[@]}" "${test_packages[@]}"
part "build" build
if part "tests" ctest --preset release --parallel "$(nproc)" --no-tests=error; then
  echo "All tests passed, $SECONDS s in all."
else
  echo "Some tests FAILED: see above."
  exit 1
fi
