// Finished, at night: from low down, the tower against the dark.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-190,70,-590>, <-2,124,0>, 25.5, <-20,130,-20>, 6)
Paper(-25, 520, srgb <0.30,0.33,0.40>)
Surround(rgb <0.04,0.06,0.11>*1.6)
Window_Light(<-520,600,300>, <0,60,0>, 460, 460, L_Night*0.22)
Reflection_Card(<-900,700,420>, <0,0,0>, 700, 620, rgb <0.4,0.6,1>, 0.10)
union { CH_Model(4, 1.15) rotate y*14 }
