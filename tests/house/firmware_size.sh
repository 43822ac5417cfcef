#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What the firmware model takes of a small microcontroller: firmware_size.sh SOURCE [COMPILER]
# Compiles it for a Cortex-M0+ and links all of it with what it calls from the compiler's and the C
# library (division, memcpy), nothing dropped. Flash = all allocated sections that are not zero at
# start, without the setting texts (.rodata.texts). Working memory = sizeof(State) +
# sizeof(Settings) + any static data. For the stack, the largest frame of one function and the sum
# of all frames are printed; the deepest chain of calls lies between the two, as no function calls itself.
# Limits: 24 KiB of flash, 1 KiB of working memory.
set -euo pipefail
source_dir=${1:?source folder}
compiler=${2:-arm-none-eabi-g++}
size_tool=${compiler%g++}size
nm_tool=${compiler%g++}nm
most_flash=24576
most_ram=1024
flags=(-std=c++20 -mcpu=cortex-m0plus -mthumb -Os -ffreestanding -fno-exceptions -fno-rtti
    -ffunction-sections -fstack-usage -Wall -Wextra)

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
objects=()
for source in "$source_dir"/firmware-model/*.cpp; do
    [[ $source != */quiet.cpp ]] || continue  # for simulations; no board skips ticks
    object=$work/$(basename "$source" .cpp).o
    "$compiler" "${flags[@]}" -c "$source" -o "$object"
    objects+=("$object")
done

# The size of an array in an object file is what the compiler thinks a type takes.
cat > "$work/probe.cpp" << 'PROBE'
#include "firmware-model/state.hpp"
extern const char probe_state[sizeof(noonbench::firmware::State)];
extern const char probe_settings[sizeof(noonbench::firmware::Settings)];
const char probe_state[sizeof(noonbench::firmware::State)] = {1};
const char probe_settings[sizeof(noonbench::firmware::Settings)] = {1};
PROBE
"$compiler" "${flags[@]}" -I"$source_dir" -c "$work/probe.cpp" -o "$work/probe.out"
size_of() { "$nm_tool" -S --radix=d "$work/probe.out" | awk -v s="$1" '$4 == s {print $2 + 0}'; }
state=$(size_of probe_state)
settings=$(size_of probe_settings)

# A link without start-up code: fails if anything beyond libgcc and the C library's mem* is needed.
"$compiler" -mcpu=cortex-m0plus -mthumb -nostdlib -Wl,--entry=0 \
    "${objects[@]}" -lgcc -lc -lgcc -o "$work/firmware.elf"
texts=$("$size_tool" -A "${objects[@]}" | awk '$1 == ".rodata.texts" {sum += $2} END {print sum + 0}')
read -r linked static < <("$size_tool" -A "$work/firmware.elf" | awk '
    $1 ~ /^\.(text|rodata|data|ARM\.ex|init_array|fini_array)/ {flash += $2}
    $1 ~ /^\.(data|bss)/ {static += $2}
    END {print flash + 0, static + 0}')
flash=$((linked - texts))
ram=$((state + settings + static))

echo "flash                 $flash B of $most_flash B, without $texts B of setting texts"
echo "working memory        $ram B of $most_ram B: State $state, Settings $settings, static $static"
cat "$work"/*.su | awk -F'\t' '{sum += $2; if ($2 + 0 > most) {most = $2 + 0; name = $1}}
    $3 !~ /static/ {print "stack is not bounded: " $1; bad = 1}
    END {sub(/^.*\//, "", name); print "largest stack frame   " most " B in " name
         print "all frames together   " sum " B"; exit bad}'
if ((texts == 0 || state == 0 || settings == 0)); then
    echo "a figure is missing: the measurement itself is broken"
    exit 1
fi
((flash <= most_flash && ram <= most_ram))
