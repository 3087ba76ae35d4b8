#!/bin/bash
# Builds everything and runs every test: optimised first, then with the address and
# undefined-behaviour sanitizers. Exits 0 only if every test ran and passed.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source cases/install_packages.sh

install_packages "${build_packages[@]}" "${picture_packages[@]}" "${test_packages[@]}"

status=0
for preset in release asan; do
  echo "== $preset: build"
  cmake --preset "$preset" --log-level=WARNING
  cmake --build --preset "$preset" -- --quiet
  echo "== $preset: tests"
  ctest --preset "$preset" --parallel "$(nproc)" --no-tests=error || status=1
done

if [ "$status" -eq 0 ]; then
  echo "All tests passed, optimised and with sanitizers."
else
  echo "Some tests FAILED: see above."
fi
exit "$status"
