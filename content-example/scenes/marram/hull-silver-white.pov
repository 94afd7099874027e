// Silver over the black, and white over the silver from aft as far as it has been sprayed.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#declare Step = 2;
#include "hull-halves.inc"
object { Jar(srgb <0.56,0.57,0.58>, srgb 0.10, 0) translate <-140,0,84> }
object { Jar(srgb <0.92,0.92,0.90>, srgb 0.10, 1) translate <-108,0,98> }
object { Brush(2.4, srgb <0.10,0.14,0.30>, srgb <0.6,0.6,0.62>) rotate y*-8 translate <-96,0,-84> }
object { Tape_Roll(26, 12) translate <142,0,-62> }
