// Running lights on test, seen from ahead: green to starboard (left of the picture), red to port, white at the masthead.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#include "dark.inc"
Studio(1)
Shoot(<330,92,-26>, <0,72,1>, 33, <20,66,0>, 6)
Mat(450, 300, <0,0,20>, 6) Table(-2.2)
plane { x, -420 pigment { srgb <0.5,0.5,0.5> } finish { F_Matt } }
Bench_Night(3.8)
union { union { MR_Model(0, 0.8, 0.7, 1.0, 0.9, 84, 22) } MR_Cradle() rotate y*4 translate y*16 }
