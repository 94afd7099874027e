// Dark room, close up: light along the joint of roof and wall.
#version 3.7;
#include "all.inc"
#include "dark.inc"
#include "roofleak.inc"
Studio(1)
Shoot(<-80,112,-132>, <-8,131,-12>, 28, <-14,142,-26>, 4)
Dark_Bench(9, 480, 1.0)
union {
  CH_Gallery(1)
  CH_CabinFloor(1, T_WhiteCoat)
  CH_CabinShell(1, T_WhiteCoat, 1, 0)
  CH_Roof_Part(1, T_WhiteCoat)
  CH_Furniture(1, 1.1) CH_CabinLamps(1.25)
  CH_RoofLeak(2.6)
  union { CH_Trunk(1) translate y*(CabH+10.5) }
  CH_Lattice(-90, 18.5, -2, 13.5, 4, 1)
  translate y*110
}
// a wooden pick points at the place
union { cone { 0, 0.25, <0,0,-8>, 1.1 } cylinder { <0,0,-8>, <0,0,-70>, 1.1 } texture { Wood_Pigment(3, srgb <0.80,0.66,0.46>, srgb <0.70,0.55,0.36>, srgb <0.62,0.47,0.30>) finish { F_Matt } }
  rotate <-16,-58,0> translate <-9.5,141.5,-30> }
light_source { <-220,210,-140> rgb <0.06,0.075,0.11> spotlight point_at <-20,126,-20> radius 8 falloff 22 }
