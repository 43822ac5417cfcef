#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# choose_mpi.sh SOURCE WITHOUT [WITH FAILURES]: a search spread over the ranks of mpirun leaves what
# one process leaves, also after kills; each complaint is made once. WITHOUT and WITH are the program
# built without and with MPI, WITHOUT is empty where the whole build has it; FAILURES is
# ranks_failures.cpp.
set -euo pipefail
source_dir=${1:?source folder}
without=$2
with=${3:-}
failures=${4:-}
if [[ -z $with || -z $failures ]]; then
    echo "This build folder was configured without Boost.MPI and Open MPI: install what"
    echo "tests/packages.txt names, then cmake --preset NAME again."
    exit 1
fi
site=$source_dir/scenarios/sites/mill_row_12.yaml
years=56  # of the search below: ten trials, as delivered and without the sun, each setting by itself, two fresh worlds
search=(choose "$site" --budget 10 --fresh-worlds 2 --into out)
export OMPI_ALLOW_RUN_AS_ROOT=1 OMPI_ALLOW_RUN_AS_ROOT_CONFIRM=1  # a container's user is root
launch=(timeout 300 mpirun --oversubscribe --bind-to none)

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
failed=0
fail() {
    echo "FAILED: $1"
    failed=1
}

# run_in FOLDER CODE COMMAND...: output and errors go to FOLDER.out and FOLDER.err
run_in() {
    local folder=$1 wanted=$2 code=0
    shift 2
    mkdir -p "$folder"
    (cd "$folder" && "$@") >"$folder.out" 2>"$folder.err" || code=$?
    [[ $code == "$wanted" ]] || fail "$folder: exit code $code instead of $wanted: $(cat "$folder.err")"
}
# told FOLDER TEXT: once among the errors
told() {
    local count
    count=$(grep -cF -- "$2" "$1.err" || true)
    [[ $count == 1 ]] || fail "$1: '$2' told $count times: $(cat "$1.err")"
}
rows_in() { sqlite3 "file:$1/out/results.sqlite?immutable=1" "SELECT count(*) FROM years" 2>/dev/null || echo 0; }
same() {
    local page
    for page in settings_sheet.html trade_off.html; do
        cmp "one/out/$page" "$1/out/$page" || fail "$1: another $page than one process"
    done
    cmp <(sqlite3 one/out/results.sqlite .dump) <(sqlite3 "$1/out/results.sqlite" .dump) ||
        fail "$1: other rows than one process"
}
children_of() { cat "/proc/$1/task/$1/children"; }
process_of_rank() {  # LAUNCHER RANK: the one that works, below its guard
    local guard
    for guard in $(children_of "$1"); do
        if tr '\0' '\n' <"/proc/$guard/environ" | grep -qx "OMPI_COMM_WORLD_RANK=$2"; then
            children_of "$guard"
        fi
    done
}
# killed FOLDER RANKS RANK ROWS: kills a rank once there are so many rows
killed() {
    local folder=$1 ranks=$2 rank=$3 rows=$4 launcher code=0 turn processes
    mkdir -p "$folder"
    (cd "$folder" && exec mpirun --oversubscribe --bind-to none -n "$ranks" "$with" \
        "${search[@]}" --resume) >"$folder.out" 2>"$folder.err" &
    launcher=$!
    for ((turn = 0; turn < 3000 && $(rows_in "$folder") < rows; ++turn)); do sleep 0.1; done
    processes=$(for guard in $(children_of $launcher); do echo "$guard" "$(children_of "$guard")"; done)
    kill -9 "$(process_of_rank $launcher "$rank")"
    for ((turn = 0; turn < 300; ++turn)); do
        kill -0 $launcher 2>/dev/null || break
        sleep 0.1
    done
    if kill -0 $launcher 2>/dev/null; then
        fail "$folder: mpirun hangs"
        kill -9 $launcher
    fi
    wait $launcher || code=$?
    [[ $code == 3 ]] || fail "$folder: exit code $code instead of 3"
    told "$folder" "noonbench: rank $rank of $ranks (process "
    told "$folder" "was ended by signal 9 (Killed). The rows that were finished are kept; the same command with --resume"
    for process in $processes; do  # those without a parent wait for process 1 to take note
        for ((turn = 0; turn < 100; ++turn)); do
            [[ -e /proc/$process ]] || continue 2
            sleep 0.1
        done
        fail "$folder: process $process has outlived mpirun"
    done
    rows=$(rows_in "$folder")
    ((rows >= $4 && rows < years)) || fail "$folder: $rows rows, so the kill was not half-way"
    [[ ! -e $folder/out/settings_sheet.html ]] || fail "$folder: a sheet of half a search"
}

# ---- the same answer
run_in one 0 "${without:-$with}" "${search[@]}"
[[ $(rows_in one) == "$years" ]] || fail "$(rows_in one) years instead of $years"
run_in three 0 "${launch[@]}" -n 3 "$with" "${search[@]}"
same three
cmp one.out three.out || fail "three: other words than one process"
run_in three 0 "${launch[@]}" -n 1 "$with" "${search[@]}" --resume
same three

# ---- kills, and on with another number of ranks
killed broken 3 1 8
cp -r broken again
killed broken 2 0 10
run_in broken 0 "$with" "${search[@]}" --resume
same broken
run_in again 0 "${launch[@]}" -n 4 "$with" "${search[@]}" --resume
same again

# ---- failures inside
for part in years rows; do
    run_in "failing_$part" 0 "${launch[@]}" -n 3 "$failures" $part
    cat "failing_$part.out"
done

# ---- complaints
run_in twice 2 "${launch[@]}" -n 3 "$with" "${search[@]}" --budget ten
told twice "--budget"
run_in nowhere 2 "${launch[@]}" -n 3 "$with" choose nowhere.yaml
told nowhere "nowhere.yaml"
run_in typo 2 "${launch[@]}" -n 3 "$with" "${search[@]}" --set controller.start_diference='8 K'
told typo "start_diference"
run_in three 2 "${launch[@]}" -n 3 "$with" "${search[@]}"
told three "holds the rows of an earlier search"
run_in jobs 2 "${launch[@]}" -n 3 "$with" "${search[@]}" --jobs 2
told jobs "does not go with the ranks of mpirun"
run_in unlike 2 "${launch[@]}" -n 2 "$with" "${search[@]}" : -n 1 "$with" "${search[@]}" --climate colder
told unlike "rank 2: has read another site than rank 0"
run_in missing 2 "${launch[@]}" -n 1 "$with" "${search[@]}" : -n 1 "$with" choose nowhere.yaml
told missing "rank 1: cannot read what rank 0 has read: nowhere.yaml"
if [[ -n $without ]]; then
    run_in without 2 "${launch[@]}" -n 3 "$without" "${search[@]}"
    told without "was started as 3 ranks, but this program is built without MPI"
    run_in without 2 env PMI_RANK=0 PMI_SIZE=2 "$without" "${search[@]}"
    told without "was started as 2 ranks, but this program is built without MPI"
    run_in without 2 "${launch[@]}" -n 3 "$without" "${search[@]}" --budget ten
    told without "--budget"
fi
for folder in twice nowhere typo jobs unlike missing without; do
    [[ ! -e $folder/out ]] || fail "$folder: left something"
done
# Another launcher than that of the library: each rank would find itself alone.
run_in lonely 2 env PMI_RANK=0 PMI_SIZE=2 "$with" "${search[@]}"
told lonely "its MPI library sees 1"
run_in lonely 0 env PMI_RANK=1 PMI_SIZE=2 "$with" "${search[@]}"
[[ ! -s lonely.err ]] || fail "lonely: the second complains as well"

((failed == 0)) && echo "the same with and without ranks, also after kills"
exit $failed
