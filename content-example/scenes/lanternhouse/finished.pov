// Finished, by daylight, lamps on.
#version 3.7;
#include "all.inc"
#include "lanternhouse.inc"
Studio(1)
Shoot(<-120,95,-400>, <0,47,0>, 24, <-12,60,-12>, 6)
Paper(-42, 420, srgb <0.66,0.63,0.57>)
Bench_Day(0.9, 0.6)
union { LH_Model(0.8) rotate y*18 }
