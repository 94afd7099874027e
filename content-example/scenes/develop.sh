#!/bin/sh
# Develops one rendered picture: exposure, bloom, film curve, grain; Radiance HDR in, JPEG out.
# Usage: develop.sh IN.hdr OUT.jpg EXPOSURE BLOOM GRAIN TARGET_KB [WIDTH]
#   EXPOSURE  factor on linear light, 1 = as rendered
#   BLOOM     share of light that the lens scatters, 0 to 0.4
#   GRAIN     standard deviation of the grain, in 8-bit steps
#   TARGET_KB the JPEG quality is lowered until the file is no larger (never under 60)
#   WIDTH     scale to this width first (for drafts)
set -eu
in=$1 out=$2 exposure=$3 bloom=$4 grain=$5 target=$6 width=${7:-}
tmp=$(mktemp -d "${TMPDIR:-/tmp}/develop.XXXXXX")
trap 'rm -rf "$tmp"' EXIT
export VIPS_CONCURRENCY=1
v() { vips "$@"; }

v rad2float "$in" "$tmp/a.v"
v linear "$tmp/a.v" "$tmp/lin.v" "$exposure" 0
if [ -n "$width" ]; then
  w=$(vipsheader -f width "$tmp/lin.v")
  v resize "$tmp/lin.v" "$tmp/b.v" "$(awk "BEGIN{print $width/$w}")" --kernel lanczos3
  mv "$tmp/b.v" "$tmp/lin.v"
fi
w=$(vipsheader -f width "$tmp/lin.v")

# Bloom: three widths of scattered light, the widest from a reduced picture.
near=$(awk "BEGIN{print $w/900}") mid=$(awk "BEGIN{print $w/260}") wide=$(awk "BEGIN{print $w/520}")
v gaussblur "$tmp/lin.v" "$tmp/near.v" "$near" --precision float
v gaussblur "$tmp/lin.v" "$tmp/mid.v" "$mid" --precision float
v resize "$tmp/lin.v" "$tmp/small.v" 0.125 --kernel linear
v gaussblur "$tmp/small.v" "$tmp/smallb.v" "$wide" --precision float
h=$(vipsheader -f height "$tmp/lin.v")
sw=$(vipsheader -f width "$tmp/smallb.v") sh=$(vipsheader -f height "$tmp/smallb.v")
v resize "$tmp/smallb.v" "$tmp/wide.v" "$(awk "BEGIN{print $w/$sw}")" --vscale "$(awk "BEGIN{print $h/$sh}")" --kernel cubic
v linear "$tmp/lin.v"  "$tmp/1.v" "$(awk "BEGIN{print 1-$bloom}")" 0
v linear "$tmp/near.v" "$tmp/2.v" "$(awk "BEGIN{print $bloom*0.45}")" 0
v linear "$tmp/mid.v"  "$tmp/3.v" "$(awk "BEGIN{print $bloom*0.33}")" 0
v linear "$tmp/wide.v" "$tmp/4.v" "$(awk "BEGIN{print $bloom*0.22}")" 0
v add "$tmp/1.v" "$tmp/2.v" "$tmp/12.v"
v add "$tmp/3.v" "$tmp/4.v" "$tmp/34.v"
v add "$tmp/12.v" "$tmp/34.v" "$tmp/glow.v"

# Film curve, per channel: x(2.51x+0.03) / (x(2.43x+0.59)+0.14), a rational fit with a soft shoulder.
# A little light from each channel is passed to the others first, so that a bright coloured lamp burns out to white.
printf '3 3\n0.94 0.04 0.02\n0.03 0.94 0.03\n0.02 0.04 0.94\n' > "$tmp/mix.mat"
v recomb "$tmp/glow.v" "$tmp/x.v" "$tmp/mix.mat"
v linear "$tmp/x.v" "$tmp/n1.v" 2.51 0.03
v multiply "$tmp/x.v" "$tmp/n1.v" "$tmp/num.v"
v linear "$tmp/x.v" "$tmp/d1.v" 2.43 0.59
v multiply "$tmp/x.v" "$tmp/d1.v" "$tmp/d2.v"
v linear "$tmp/d2.v" "$tmp/den.v" 1 0.14
v divide "$tmp/num.v" "$tmp/den.v" "$tmp/film.v"
v copy "$tmp/film.v" "$tmp/sc.v" --interpretation scrgb
v scRGB2sRGB "$tmp/sc.v" "$tmp/srgb.v"
v gaussnoise "$tmp/noise.v" "$w" "$h" --sigma "$grain" --mean 0 --seed 7
v add "$tmp/srgb.v" "$tmp/noise.v" "$tmp/grain.v"
v cast "$tmp/grain.v" "$tmp/final.v" uchar
v copy "$tmp/final.v" "$tmp/done.v" --interpretation srgb
q=90
while :; do
  v jpegsave "$tmp/done.v" "$tmp/o.jpg" --Q $q --strip --optimize-coding --interlace
  kb=$(( $(wc -c < "$tmp/o.jpg") / 1024 ))
  if [ "$kb" -le "$target" ] || [ "$q" -le 60 ]; then break; fi
  q=$((q-3))
done
mkdir -p "$(dirname "$out")"
cp "$tmp/o.jpg" "$out"
echo "$out: ${w}x${h}, quality $q, $kb kB"
