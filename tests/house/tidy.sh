#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# tidy.sh BUILD [UNIT...]: clang-tidy on what BUILD compiles of the four folders, or on the UNITs
# named; prints nothing of what is clean. A unit may be several sources behind one another: the
# analyser then has to be told that an included source is not just a header. It walks the paths of the
# firmware model, the plant and the traces only: in the harness it spends its time inside the text
# and JSON libraries, seven minutes on the command line alone.
set -euo pipefail
build=${1:?build folder}
shift
units=("$@")
if ((${#units[@]} == 0)); then
    mapfile -t units < <(grep -oP '"file": "\K.*(?=")' "$build/compile_commands.json" |
        grep -E '/(firmware-model|plant|traces|harness)/' | grep -v /tests/ | sort -u)
fi
((${#units[@]} > 0))
one_unit() {
    local checks=-bugprone-suspicious-include
    [[ $2 != */harness/* ]] || checks+=,-clang-analyzer-*
    out=$(clang-tidy --quiet -p "$1" --checks="$checks" \
        --extra-arg={-Wno-unknown-warning-option,-Wno-shadow,-Xclang,-analyzer-opt-analyze-headers} "$2" \
        2>/dev/null) || {
        echo "$out"
        return 1
    }
}
export -f one_unit
printf '%s\0' "${units[@]}" | xargs -0 -P "$(nproc)" -I{} bash -c 'one_unit "$@"' - "$build" {}
echo "${#units[@]} units are tidy"
