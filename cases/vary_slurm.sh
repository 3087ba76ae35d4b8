#!/bin/bash
# `tubewright vary` as a job array of Slurm: each task of the array is a shard.
#
#   sbatch --array=0-7 cases/vary_slurm.sh DIR FRAME.yaml --set PATH=VALUES ...
#
# and when all are done (`sbatch --dependency=afterok:JOB`, or by hand)
#
#   tubewright vary --merge DIR/vary_*_of_8.json -o DIR
#
# A task that is run again replaces its own files and no others. The program is TUBEWRIGHT, or the
# `tubewright` of the PATH.
#SBATCH --job-name=tubewright-vary
#SBATCH --ntasks=1
set -euo pipefail
if [ $# -lt 3 ]; then
  sed -n '/^#   sbatch/s/^# *//p' "$0" >&2
  exit 2
fi
dir=$1 frame=$2
shift 2
index=$(((SLURM_ARRAY_TASK_ID - SLURM_ARRAY_TASK_MIN) / ${SLURM_ARRAY_TASK_STEP:-1}))
exec "${TUBEWRIGHT:-tubewright}" vary "$frame" "$@" \
  --shard "$index/$SLURM_ARRAY_TASK_COUNT" -o "$dir" --quiet
