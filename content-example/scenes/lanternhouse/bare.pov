// The lantern house in bare plastic; lantern and tower still apart.
#version 3.7;
#include "all.inc"
#include "lanternhouse.inc"
Studio(1)
Shoot(<-70,120,-230>, <8,46,0>, 42, <-10,50,-12>, 6)
Bench(7, 460)
Bench_Day(1, 0.6)
union { LH_Tower(0, 0) rotate y*14 translate <-22,2.6,26> }
union { LH_Lantern(0, 0) rotate y*10 translate <46,0.2,4> }
object { Knife() rotate y*14 translate <-70,0,-44> }
object { Sanding_Stick(74, srgb <0.42,0.26,0.16>) rotate y*-24 translate <22,0,-48> }
object { Dropper(srgb <0.82,0.84,0.86>) translate <-84,0,70> }
object { Tape_Roll(24, 12) translate <92,0,84> }
object { LED(3, C_LedMilk, 20, 0, L_Warm) rotate x*-90 rotate y*70 translate <6,2,-28> }
