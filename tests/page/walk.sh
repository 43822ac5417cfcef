#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# walk.sh SOURCE WORK NOONBENCH: brings what the walk needs with npm into WORK, then walks.
set -euo pipefail
source=${1:?source folder} work=${2:?working folder} noonbench=${3:?program}
mkdir -p "$work"
cp "$source"/tests/page/package*.json "$work"
cd "$work"
[[ node_modules/.package-lock.json -nt package-lock.json ]] || npm ci --no-audit --no-fund --silent
exec node "$source/tests/page/walk.mjs" "$noonbench" "$source/scenarios" "$(command -v chromium)"
