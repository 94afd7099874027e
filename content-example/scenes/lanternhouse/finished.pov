// Finished, at dusk, room and lantern lit.
#version 3.7;
#include "all.inc"
#include "lanternhouse.inc"
Studio(1)
Shoot(<-120,95,-400>, <0,47,0>, 24, <-12,60,-12>, 6)
Paper(-42, 420, srgb <0.50,0.53,0.58>)
Surround(rgb <0.18,0.22,0.32>*1.3)
Window_Light(<-620,520,60>, <0,50,0>, 460, 460, rgb <0.62,0.74,1.0>*0.50)
Window_Light(<700,140,400>, <0,50,0>, 300, 120, rgb <1.0,0.48,0.24>*0.34)
Reflection_Card(<-900,700,420>, <0,0,0>, 700, 620, rgb <0.5,0.68,1>, 0.9)
union { LH_Model(0.9) rotate y*18 }
