#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# firmware_symbols.sh LIBRARY [NM]: what the firmware model asks of others. Beside its own symbols
# only the four functions that every compiler may call are allowed; no heap, no exceptions, no
# standard library.
set -euo pipefail
library=${1:?static library of the firmware model}
nm_tool=${2:-nm}
defined=$("$nm_tool" --defined-only --format=posix "$library" | awk 'NF >= 2 {print $1}' | sort -u)
wanted=$("$nm_tool" --undefined-only --format=posix "$library" | awk '$2 ~ /^[Uvw]$/ {print $1}' | sort -u)
if [[ -z $defined ]]; then
    echo "$library defines nothing: the measurement itself is broken"
    exit 1
fi
foreign=$(comm -23 <(echo "$wanted") <(echo "$defined") | grep -vE '^(memcpy|memmove|memset|memcmp|_GLOBAL_OFFSET_TABLE_)?$' || true)
echo "defined $(wc -l <<< "$defined"), taken from outside: $(comm -23 <(echo "$wanted") <(echo "$defined") | tr '\n' ' ')"
if [[ -n $foreign ]]; then
    echo "not allowed: $foreign"
    exit 1
fi
