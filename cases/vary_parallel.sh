#!/bin/bash
# `tubewright vary` in shards with GNU parallel, on this machine or on several, put together at the
# end.
#
#   bash cases/vary_parallel.sh SHARDS DIR FRAME.yaml --set PATH=VALUES ...
#
# One shard at a time on each machine, since each takes all its processors. For several machines
# that share DIR, set PARALLEL as GNU parallel reads it, such as
# PARALLEL='--sshloginfile hosts --workdir .'. Started again, it does what was left undone. The
# program is TUBEWRIGHT, or the `tubewright` of the PATH.
set -euo pipefail
if [ $# -lt 4 ]; then
  sed -n '/^#   bash/s/^# *//p' "$0" >&2
  exit 2
fi
program=${TUBEWRIGHT:-tubewright} shards=$1 dir=$2 frame=$3
shift 3
mkdir -p "$dir"

# What is done is written down under the question: another frame or --set begins anew.
question=$({ cat "$frame" && printf '%s\n' "$shards" "$@"; } | cksum | cut -d ' ' -f 1)
seq 0 "$((shards - 1))" |
  parallel --will-cite --jobs 1 --joblog "$dir/jobs_$question.log" --resume-failed --quote \
    "$program" vary "$frame" "$@" --shard "{}/$shards" -o "$dir" --quiet >&2

files=()
for ((i = 0; i < shards; ++i)); do files+=("$dir/vary_${i}_of_$shards.json"); done
exec "$program" vary --merge "${files[@]}" -o "$dir"
