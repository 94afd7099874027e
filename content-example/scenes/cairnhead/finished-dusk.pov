// Finished, at dusk: a blue window and every lamp on.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-130,120,-610>, <-3,121,0>, 25, <-20,130,-20>, 8)
Paper(-25, 420, srgb <0.42,0.50,0.60>)
Surround(rgb <0.16,0.21,0.32>*1.5)
Window_Light(<-620,520,200>, <0,60,0>, 460, 460, rgb <0.56,0.70,1.0>*0.55)
Window_Light(<700,120,500>, <0,60,0>, 300, 120, rgb <1.0,0.45,0.22>*0.26)
Reflection_Card(<-900,700,420>, <0,0,0>, 700, 620, rgb <0.4,0.6,1>, 0.6)
union { CH_Model(4, 0.95) rotate y*8 }
