#!/bin/sh
# Gives one developed picture what a camera would have left in it: date, an
# invented camera, and for some a turned sensor, an invented position at sea or
# a serial number, so that their removal from published pictures can be seen.
# Usage: exif.sh build/picture      Needs exiftool and ImageMagick's convert.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
file=$here/../builds/$1.jpg
case $1 in */photos/*) ;; *) file=$here/../builds/${1%%/*}/photos/${1##*/}.jpg ;; esac

# turn ORIENTATION: stores the picture so that the EXIF orientation puts it right.
turn() {
  case $1 in
    2) how='-flop' ;; 3) how='-rotate 180' ;; 6) how='-rotate 270' ;; 8) how='-rotate 90' ;;
  esac
  # shellcheck disable=SC2086  # the words are options
  convert "$file" $how -quality 88 "$file"
  exiftool -q -overwrite_original -n "-Orientation=$1" "$file"
}

taken() { exiftool -q -overwrite_original -Make=Pellew -Model=P-2 "-DateTimeOriginal=$1" -ExposureTime=1/15 -FNumber=8 -ISO=200 "$file"; }
place() { exiftool -q -overwrite_original "-GPSLatitude=$1" -GPSLatitudeRef=N "-GPSLongitude=$2" -GPSLongitudeRef=E "$file"; }

case $1 in
  cairnhead/cabin-drilled) turn 6; taken "2025:09:20 16:12:40"; place 55.1012 6.2031 ;;
  cairnhead/wiring-base)   turn 3; taken "2025:11:08 17:40:02"; place 55.1012 6.2031 ;;
  cairnhead/base-coat)     taken "2025:12:06 12:50:11"; place 55.1013 6.2030 ;;
  cairnhead/panel-wash)    taken "2026:01:04 19:02:55" ;;
  cairnhead/finished-day)  turn 8; taken "2026:01:18 11:20:31"; place 55.1012 6.2033 ;;
  cairnhead/finished-dusk) taken "2026:01:18 17:05:09"
    exiftool -q -overwrite_original -XMP-aux:SerialNumber=P2-00417 -Comment="from the bench camera" "$file" ;;
  marram/sprues)           taken "2026:02:01 10:30:00"; place 55.1011 6.2030 ;;
  marram/hull-halves)      turn 2; taken "2026:02:07 15:22:47" ;;
  marram/chart-table)      taken "2026:02:28 18:44:13"; place 55.1012 6.2031 ;;
  marram/nav-lights)       taken "2026:02:28 19:01:37" ;;
  marram/wire-route)       turn 3; taken "2026:03:07 16:15:00" ;;
  marram/base-coat)        taken "2026:03:14 16:40:28" ;;
  lanternhouse/finished)   taken "2025:04:27 19:22:10"; place 55.1010 6.2029 ;;
  pumphouse/lit)           taken "2025:06:07 22:08:36" ;;
esac
