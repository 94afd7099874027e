// Dark room, close up: light through the seam between two cabin walls and under the eaves.
#version 3.7;
#include "all.inc"
#include "dark.inc"
Studio(1)
Shoot(<-78,150,-128>, <-9,127,-12>, 30, <-19,128,-24>, 4)
Dark_Bench(9, 480, 1.0)
#declare Stage = 1;
union {
  CH_Gallery(1)
  CH_CabinFloor(1, T_WhiteCoat)
  CH_CabinShell(1, T_WhiteCoat, 1, 0.42)
  union { CH_Roof_Part(1, T_WhiteCoat) rotate z*0.7 translate y*0.12 }
  CH_Furniture(1, 1.1) CH_CabinLamps(1.25)
  // the gap itself: what the eye sees of the lit inside
  box { <-0.13,2,-0.25>, <0.13,32.5,0.1> pigment { bozo turbulence 0.5 color_map { [0.25 color L_Warm*0.05] [0.5 color L_Warm*0.5] [0.75 color L_Warm] } scale <3,2.6,3> } finish { ambient 0 diffuse 0 emission 2.0 } no_shadow translate <0,0,-CabR+0.75> rotate y*22.5 }
  union { CH_Trunk(1) translate y*(CabH+10.5) }
  CH_Lattice(-90, 18.5, -2, 13.5, 4, 1)
  translate y*110
}
// a wooden pick points at the place
union { cone { 0, 0.25, <0,0,-8>, 1.1 } cylinder { <0,0,-8>, <0,0,-70>, 1.1 } texture { Wood_Pigment(3, srgb <0.80,0.66,0.46>, srgb <0.70,0.55,0.36>, srgb <0.62,0.47,0.30>) finish { F_Matt } }
  rotate <14,-62,0> translate <-13.2,126.5,-29> }
light_source { <-220,210,-140> rgb <0.06,0.075,0.11> spotlight point_at <-20,126,-20> radius 8 falloff 22 }
