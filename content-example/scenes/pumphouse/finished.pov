// Finished, late in the day, the hall lit.
#version 3.7;
#include "all.inc"
#include "pumphouse.inc"
Studio(1)
Shoot(<-190,130,-370>, <2,34,0>, 33, <-20,30,-34>, 7)
Paper(-26, 420, srgb <0.62,0.62,0.60>)
Bench_Day(0.55, 0.30)
union { PH_Model(0.95) rotate y*14 }
