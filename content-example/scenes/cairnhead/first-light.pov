// First light in a dark room: cabin closed, tower in primer, all seven lamps on.
#version 3.7;
#include "all.inc"
#include "dark.inc"
#include "roofleak.inc"
Studio(1)
Shoot(<-110,150,-430>, <6,120,0>, 33, <0,125,-15>, 7)
Dark_Bench(9, 480, 3.2)
union { CH_Tower(1, 1.15, T_WhiteCoat) union { CH_RoofLeak(1.6) translate y*CH_CabY } rotate y*14 translate <-8,0,24> }
union { CH_Hut(1, 1.1) rotate y*-18 translate <70,4,6> }
object { Wire(array[6] { <56,2,8>, <44,0.4,-2>, <34,0.4,14>, <20,0.4,-14>, <-40,0.4,-30>, <-90,0.4,-12> }, 0.5) texture { pigment { color W_Red } finish { F_Satin } } }
object { Wire(array[5] { <54,2,8>, <40,0.4,-8>, <10,0.4,-26>, <-42,0.4,-36>, <-92,0.4,-18> }, 0.5) texture { pigment { color W_Black } finish { F_Satin } } }
object { Meter(srgb <0.70,0.48,0.10>) rotate y*-24 translate <-104,0,66> }
object { Knife() rotate y*14 translate <-30,0,-74> }
