// Finished, by daylight, before a paper sweep.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-150,190,-620>, <-3,121,0>, 25, <-20,130,-10>, 8)
Paper(-25, 420, srgb <0.55,0.61,0.65>)
Bench_Day(1, 0.55)
union { CH_Model(4, 0) rotate y*8 }
