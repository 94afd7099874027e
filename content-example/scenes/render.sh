#!/bin/sh
# Renders and develops the demo photographs.
# Usage: render.sh [--draft] [build/picture ...]      (no names: all of shots.txt)
# Needs povray 3.7, vips, exiftool. SHARE (default 0.7) is the rendered share of the final width: POV-Ray renders at that
# size, develop.sh scales up to the size in shots.txt. THREADS (default 1). WORK (default a new folder below /tmp) keeps the HDR files.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
builds=$(cd "$here/.." && pwd)/builds
work=${WORK:-$(mktemp -d "${TMPDIR:-/tmp}/scenes.XXXXXX")}
share=${SHARE:-0.7} threads=${THREADS:-1} target=${TARGET_KB:-360}
draft=
if [ "${1:-}" = --draft ]; then draft=1; shift; fi
mkdir -p "$work"

one() { # build/picture width height exposure bloom grain samples
  b=${1%%/*} p=${1##*/}
  if [ -n "$draft" ]; then
    w=$(($2/5)) h=$(($3/5)) options="-A Declare=Soft=0 Declare=RadCount=20"
  else
    w=$(awk "BEGIN{print int($2*$share)}") h=$(awk "BEGIN{print int($3*$share)}")
    if [ "$7" -gt 0 ]; then options="-A Declare=Blur=$7"; else options="+A0.15 +AM2 +R2"; fi
  fi
  hdr=$work/$b-$p.hdr
  # shellcheck disable=SC2086  # options are words
  if ! nice -n 15 povray "+I$here/$b/$p.pov" "+O$hdr" +FH "+W$w" "+H$h" -D "+WT$threads" "+L$here/lib" $options >"$work/$b-$p.log" 2>&1 </dev/null; then
    echo "$1: povray failed, see $work/$b-$p.log" >&2
    grep -A4 'Error' "$work/$b-$p.log" >&2 || true
    return 1
  fi
  if [ -n "$draft" ]; then
    "$here/develop.sh" "$hdr" "$work/$b-$p.jpg" "$4" "$5" "$6" 400
  else
    "$here/develop.sh" "$hdr" "$builds/$b/photos/$p.jpg" "$4" "$5" "$6" "$target" "$2"
    "$here/exif.sh" "$b/$p"
  fi
}

grep -v '^#' "$here/shots.txt" | while read -r name w h exposure bloom grain samples; do
  if [ $# -gt 0 ]; then
    case " $* " in *" $name "*) ;; *) continue ;; esac
  fi
  one "$name" "$w" "$h" "$exposure" "$bloom" "$grain" "$samples" || echo "$name: left as it was" >&2
done
