# shellcheck shell=bash
# shellcheck disable=SC2034  # the lists are for the scripts that read this file
#
# Installs Debian packages, only those that are missing. To be sourced by the scripts.
#
# install_packages NAME...: works as root and as a user with sudo; asks nothing.

# OpenBLAS: wide frames are several times quicker with it than with the plain reference BLAS.
build_packages=(
  cmake ninja-build g++ libeigen3-dev libspectra-dev libyaml-cpp-dev libvtk9-dev libcli11-dev
  nlohmann-json3-dev libutf8proc-dev libsuitesparse-dev libopenblas0-pthread catch2)
# What draws pictures where there is no screen.
picture_packages=(xvfb)
test_packages=(
  python3 python3-vtk9 python3-meshio python3-jsonschema python3-yaml python3-ezdxf clang
  libclang-rt-14-dev dpkg-dev file chromium chromium-driver python3-selenium xdotool zsh fish
  groff-base parallel)
# What reads the sources (.ci/lint, .ci/tidy, .ci/coverage).
lint_packages=(clang-format clang-tidy flake8 shellcheck gcovr)
# For the report's page only, and only where there is no npm from elsewhere.
page_lint_packages=(nodejs npm)

is_installed() {
  [ "$(dpkg-query --show --showformat='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

install_packages() {
  local missing=() package as_root=()
  for package in "$@"; do
    is_installed "$package" || missing+=("$package")
  done
  if [ ${#missing[@]} -eq 0 ]; then
    return 0
  fi
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null; then
      echo "missing packages: ${missing[*]}; install them as root, or install sudo" >&2
      return 1
    fi
    as_root=(sudo)
  fi
  echo "Installing ${missing[*]}"
  "${as_root[@]}" apt-get update --quiet=2
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install --yes --quiet=2 --no-install-recommends "${missing[@]}"
}
