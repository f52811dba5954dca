#!/usr/bin/env bash
# One task of a Slurm job array: answers its share of the lines of a file. To be sent by, for instance,
#   sbatch --array=0-99 --cpus-per-task=4 docs/batch_array.sh cases.jsonl answers flinch
# and joined afterwards, in order, by
#   cat answers/part-*.jsonl > answers.jsonl
# A task that was stopped goes on where it was when it is sent again. Exit status as of `flinch batch`.
#SBATCH --job-name=flinch-batch
set -euo pipefail
if [[ $# -lt 2 || -z ${SLURM_ARRAY_TASK_ID:-} || -z ${SLURM_ARRAY_TASK_COUNT:-} ]]; then
  echo "usage, as a task of an array: batch_array.sh INPUT FOLDER [PROGRAM]; see docs/batch.md" >&2
  exit 2
fi
input=$1 folder=$2 program=${3:-flinch}
task=$SLURM_ARRAY_TASK_ID tasks=$SLURM_ARRAY_TASK_COUNT
first=${SLURM_ARRAY_TASK_MIN:-0}

# Share number k of n, never cutting a line: `split` prints it without reading the rest into memory.
share=$((task - first + 1))
mkdir -p "$folder"
part=$(printf '%s/part-%06d.jsonl' "$folder" "$share")
split --number="l/$share/$tasks" "$input" | "$program" batch --threads "${SLURM_CPUS_PER_TASK:-1}" -o "$part" --resume
