// Dark wash in the panel lines of cabin and gallery, rails not fitted yet, brush still at the joint.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-56,98,-124>, <0,60,-24>, 34, <-4,58,-32>, 5)
Bench(-7, 380)
Bench_Day(1, 0.8)
#declare CH_NoRail = 1;
union {
  union { CH_Gallery(3) }
  CH_CabinFloor(3, T_WhiteCoat)
  CH_CabinShell(3, T_WhiteCoat, 1, 0)
  CH_Roof_Part(3, T_WhiteCoat)
  CH_Furniture(3, 0) CH_CabinLamps(0)
  union { CH_Trunk(3) translate y*(CabH+10.5) }
  object { Block(40, 14, 40, 4) translate y*-48 } cylinder { <0,-36,0>, <0,0,0>, 4 T_Paint(CH_White, 2, 0) }
  rotate y*12 translate y*48
}
object { Brush(1.0, srgb <0.12,0.14,0.30>, srgb <0.16,0.12,0.10>) rotate z*20 rotate y*34 translate <2.2,57.4,-31> }
object { Jar(srgb <0.16,0.12,0.10>, srgb 0.10, 1) translate <-52,0,20> }
object { Jar(srgb <0.55,0.50,0.42>, srgb 0.10, 0) translate <70,0,70> }
