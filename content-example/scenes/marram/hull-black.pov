// First light-blocking coat: both halves black inside.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#declare Step = 1;
#include "hull-halves.inc"
object { Jar(srgb <0.05,0.05,0.055>, srgb 0.10, 1) translate <-140,0,84> }
object { Brush(2.4, srgb <0.10,0.14,0.30>, srgb <0.05,0.05,0.05>) rotate y*-8 translate <-96,0,-84> }
object { Tape_Roll(26, 12) translate <142,0,-62> }
object { RBox(<-16,0,-12>, <16,0.3,12>, 0.1) pigment { srgb 0.9 } finish { F_Matt } rotate y*20 translate <96,0,-92> }
