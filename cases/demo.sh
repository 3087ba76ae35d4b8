#!/bin/bash
# From a fresh Debian 12 to an answer: installs what the build needs, builds the program, checks an
# example vehicle. The summary appears here; report.html (open it in a browser), pictures, all
# numbers and 3D files in results/.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source cases/install_packages.sh

install_packages "${build_packages[@]}" "${picture_packages[@]}"
cmake --preset release --log-level=WARNING
cmake --build --preset release --target tubewright

build/release/tubewright check cases/03_*.yaml -o results
