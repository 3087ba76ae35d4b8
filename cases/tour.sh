#!/bin/bash
# usage: bash cases/tour.sh
# Makes the pictures of the README and its chapters anew, with the built program, into
# cases/pictures/.
#
# Needs what cases/demo.sh and tests/run.sh install: Xvfb, and chromium for the view of the report.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT
unset DISPLAY
export SOURCE_DATE_EPOCH=1798761600  # the report bears this date, not today's

tubewright() { build/release/tubewright "$@" >"$work/said" || [ $? -eq 1 ]; }

tubewright check cases/05_market_hauler.yaml -o "$work/hauler"
tubewright check cases/02_orchard_runabout.yaml --case tail_kerb -o "$work/runabout"
tubewright check cases/07_trailer_drawbar.yaml --case swing -o "$work/drawbar"

mkdir -p cases/pictures
cp "$work"/hauler/loads_*_pothole.png cases/pictures/hauler_pothole.png
cp "$work"/runabout/loads_*_tail_kerb.png cases/pictures/runabout_tail_kerb.png
cp "$work"/drawbar/loads_*_swing.png cases/pictures/drawbar_swing.png
cp "$work/hauler/sheet_floor.svg" cases/pictures/hauler_sheet_floor.svg
tubewright ride cases/03_cargo_quad.yaml -o "$work/quad"
cp "$work/quad/ride_kerb.svg" cases/pictures/quad_kerb.svg

# The browser only writes where its profile may be; some installations insist on a home of its own.
HOME="$work" chromium --headless --no-sandbox --disable-gpu --hide-scrollbars \
  --window-size=1100,1500 --virtual-time-budget=5000 --screenshot="$work/report.png" \
  "file://$work/hauler/report.html" \
  >"$work/said" 2>&1
cp "$work/report.png" cases/pictures/hauler_report.png
ls -l cases/pictures
