#!/usr/bin/env bash
# Opens every form of the DXF files in LibreCAD, a reader that is not ours, prints each to PDF, and
# looks for the colours of the outlines there.
#
# Not a part of the usual run: LibreCAD is a large program. On Debian: apt install librecad
# Usage: tests/extra/librecad.sh [SHEET]     (by default fixtures/first-pair.toml)

set -euo pipefail
cd "$(dirname "$0")/../.."
sheet="${1:-fixtures/first-pair.toml}"

for program in librecad python3 cargo timeout; do
    if ! command -v "$program" >/dev/null; then
        echo "$program is not there; on Debian: apt install librecad python3" >&2
        exit 2
    fi
done

cargo build --quiet -p quarterpin
quarterpin="${CARGO_TARGET_DIR:-target}/debug/quarterpin"
folder="$(mktemp -d)"
trap 'rm -rf "$folder"' EXIT

# No window, and none of its settings in anyone's home.
export QT_QPA_PLATFORM=offscreen HOME="$folder" XDG_CONFIG_HOME="$folder" XDG_RUNTIME_DIR="$folder"
chmod 700 "$folder"

echo "$(librecad dxf2pdf --version 2>/dev/null | tail -n 1), $sheet"

# Pages of a PDF, and how many strokes it has in that colour (red, green, blue) of which it has the
# fewest. Words are strokes as well, so that all colours together would tell nothing.
count() {
    python3 - "$@" <<'PYTHON'
import re
import sys
import zlib

data = open(sys.argv[1], "rb").read()
strokes = dict.fromkeys(sys.argv[2:], 0)
for start in re.finditer(rb"stream\r?\n", data):
    try:
        text = zlib.decompressobj().decompress(data[start.end():])
    except zlib.error:
        continue
    colour = None
    for found in re.finditer(rb"([\d.]+) ([\d.]+) ([\d.]+) SCN|[\d.-]+ [\d.-]+ [lc]\s", text):
        if found[1]:
            colour = " ".join(f"{float(part):.2f}" for part in found.groups())
        elif colour in strokes:
            strokes[colour] += 1
print(len(re.findall(rb"/Type\s*/Page\b", data)), min(strokes.values()))
PYTHON
}

# The colours of the layers CUT and SEWING, and of 14 and 84 in the file to exchange.
red="1.00 0.00 0.00" blue="0.00 0.00 1.00" grey="0.75 0.75 0.75"

# A piece drawn with chords has some fifty.
least=50
failed=0

look() {
    local title="$1" dxf="$2" pdf="${2%.dxf}.pdf"
    shift 2
    # Its exit code is 0 whatever happens, so that only the PDF can tell.
    timeout 120 librecad dxf2pdf -a "$dxf" >"$folder/log" 2>&1 || true
    if [ ! -s "$pdf" ]; then
        echo "FAILED $title: no PDF was written"
        tail -n 5 "$folder/log"
        failed=1
        return
    fi
    local pages strokes
    read -r pages strokes < <(count "$pdf" "$@")
    if [ "$pages" -lt 1 ] || [ "$strokes" -lt "$least" ]; then
        echo "FAILED $title: $pages pages, $strokes strokes in some colour: lines are missing"
        failed=1
    else
        echo "ok     $title: $pages page, $strokes strokes or more in each colour"
    fi
}

# Drafts into a folder of its own; the rest are flags.
draft() {
    local out="$1"
    shift
    "$quarterpin" draft "$sheet" -o "$out" "$@" >"$folder/log" 2>&1 || { cat "$folder/log" >&2; exit 1; }
}

form=0
for choice in "R12 polylines" "R12 arcs" "R2000 polylines" "R2000 arcs" "R2000 splines"; do
    for extent in whole halves; do
        read -r version curves <<<"$choice"
        form=$((form + 1))
        flags=(--dxf-version "$version" --curves "$curves")
        if [ "$extent" = halves ]; then flags+=(--halves); fi
        draft "$folder/$form" "${flags[@]}"
        look "to cut by, $version, $curves, $extent" "$(echo "$folder/$form"/*-cut.dxf)" "$red" "$blue"
    done
done
look "to exchange, slits" "$(echo "$folder/$form"/*-pieces.dxf)" "$blue" "$grey"
draft "$folder/vees" --notches vees
look "to exchange, Vs" "$(echo "$folder/vees"/*-pieces.dxf)" "$blue" "$grey"

exit "$failed"
