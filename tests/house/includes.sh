#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Includes point one way only. firmware-model, plant and traces may include siblings by bare name and
# the standard library (traces: fmt and netcdf too); inside harness the floors are
# scenario < weather < bench < language < judge < hunt < report < lesson < prove < choose < live < cli. Prints every line that points the wrong way.
set -euo pipefail
cd "${1:?source folder}"
wrong=0
complain() { echo "$1"; wrong=1; }

for folder in firmware-model plant traces; do
    while IFS= read -r line; do complain "$line: only siblings by bare name"; done \
        < <(grep -nE '#include "[^"]*/' "$folder"/*.[ch]pp || true)
done
while IFS= read -r line; do complain "$line: not in a freestanding firmware"; done < <(
    grep -nE '#include <' firmware-model/*.[ch]pp |
        grep -vE '<(array|bit|compare|concepts|cstddef|cstdint|cstring|limits|span|type_traits|utility)>' || true)

floors=(scenario weather bench language judge hunt report lesson prove choose live cli)
for i in "${!floors[@]}"; do
    for above in "${floors[@]:i+1}"; do
        while IFS= read -r line; do complain "$line: ${floors[i]} stands below $above"; done < <(
            grep -rnE "#include \"harness/$above/" "harness/${floors[i]}" || true)
    done
done
while IFS= read -r line; do complain "$line: nothing includes tests, nothing climbs by .."; done < <(
    grep -rnE '#include "(tests/|\.\./)' firmware-model plant traces harness || true)
exit $wrong
