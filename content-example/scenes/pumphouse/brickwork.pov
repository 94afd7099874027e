// Brickwork in hand: front painted and pointed, gable still bare.
#version 3.7;
#include "all.inc"
#include "pumphouse.inc"
Studio(1)
Shoot(<-92,88,-150>, <-14,24,-14>, 38, <-24,26,-33>, 5)
Bench(6, 420)
Bench_Day(1, 0.7)
union {
  union { PH_Front(2, 0) PH_Door(2, 0) translate z*-PH_D }
  union { PH_Front(0, 1) rotate y*180 translate z*PH_D }
  union { PH_Gable(0) rotate y*-90 translate x*PH_W }
  union { PH_Gable(0) rotate y*90 translate x*-PH_W }
  rotate y*9 translate z*14
}
object { Brush(1.5, srgb <0.45,0.10,0.08>, srgb <0.62,0.57,0.50>) rotate y*-24 rotate z*0 translate <-58,0,-50> }
object { Jar(srgb <0.62,0.57,0.50>, srgb 0.1, 1) translate <22,0,-54> }
object { Jar(PH_BrickB, srgb 0.1, 0) translate <58,0,-42> }
object { Tweezers(1.4) rotate y*14 translate <-22,0,-76> }
