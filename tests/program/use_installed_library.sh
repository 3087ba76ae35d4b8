#!/bin/bash
# usage: use_installed_library.sh BUILD_DIR CMAKE
# Installs the library to an empty prefix, builds a program against it, runs that program.
set -euo pipefail
build_dir=$1
cmake=$2
consumer=$(cd "$(dirname "${BASH_SOURCE[0]}")/consumer" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

"$cmake" --install "$build_dir" --prefix "$scratch/prefix" --component library
"$cmake" -S "$consumer" -B "$scratch/build" -DCMAKE_PREFIX_PATH="$scratch/prefix" \
  -DCMAKE_BUILD_TYPE=Debug
"$cmake" --build "$scratch/build"
"$scratch/build/cantilever"
