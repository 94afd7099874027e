// Bare walls of moulded brick; a scriber runs the courses round the corner joints.
#version 3.7;
#include "all.inc"
#include "pumphouse.inc"
Studio(1)
Shoot(<-92,88,-150>, <-14,24,-14>, 38, <-24,26,-33>, 5)
Bench(6, 420)
Bench_Day(1, 0.7)
union {
  union { PH_Front(0, 0) PH_Door(0, 0) translate z*-PH_D }
  union { PH_Front(0, 1) rotate y*180 translate z*PH_D }
  union { PH_Gable(0) rotate y*-90 translate x*PH_W }
  union { PH_Gable(0) rotate y*90 translate x*-PH_W }
  rotate y*9 translate z*14
}
// the scriber
union { cone { 0, 0.12, <12,0,0>, 0.8 texture { pigment { srgb 0.7 } finish { F_Steel } } } cylinder { <12,0,0>, <24,0,0>, 1.6 texture { pigment { srgb <0.78,0.66,0.40> } finish { F_Brushed } } }
  cylinder { <24,0,0>, <110,0,0>, 3.6 texture { pigment { srgb <0.16,0.17,0.19> } normal { quilted 0.5 scale 1 } finish { F_Satin } } }
  rotate z*16 rotate y*-196 translate <-46.5,22,-26.5> }
object { Sanding_Stick(70, srgb <0.42,0.26,0.16>) rotate y*12 translate <-30,0,-62> }
object { Dropper(srgb <0.80,0.82,0.84>) translate <64,0,-20> }
object { Tape_Roll(22, 10) translate <76,0,-58> }
#declare Rs = seed(7);
#for (I, 0, 40) sphere { 0, 0.18+0.2*rand(Rs) scale <1,0.5,1> translate <-62+26*rand(Rs),0.1,-40+16*rand(Rs)> pigment { color C_Plastic } finish { F_Matt } } #end
