#!/bin/bash
# `tubewright vary` with one shard a rank, under whatever starts ranks: mpirun, mpiexec, srun.
#
#   mpirun -n 8 bash cases/vary_mpi.sh DIR FRAME.yaml --set PATH=VALUES ...
#
# and then
#
#   tubewright vary --merge DIR/vary_*_of_8.json -o DIR
#
# Which rank it is comes from the environment: Open MPI's, PMI's or Slurm's variables. One rank a
# machine, since each takes all processors that it may use. The program is TUBEWRIGHT, or the
# `tubewright` of the PATH.
set -euo pipefail
if [ $# -lt 3 ]; then
  sed -n '/^#   mpirun/s/^# *//p' "$0" >&2
  exit 2
fi
dir=$1 frame=$2
shift 2
rank=${OMPI_COMM_WORLD_RANK:-${PMI_RANK:-${SLURM_PROCID:-}}}
ranks=${OMPI_COMM_WORLD_SIZE:-${PMI_SIZE:-${SLURM_NTASKS:-}}}
if [ -z "$rank" ] || [ -z "$ranks" ]; then
  echo "which rank is this? none of OMPI_COMM_WORLD_RANK, PMI_RANK, SLURM_PROCID is set" >&2
  exit 2
fi
exec "${TUBEWRIGHT:-tubewright}" vary "$frame" "$@" --shard "$rank/$ranks" -o "$dir" --quiet
