// Lit at night: the engine through the arched windows.
#version 3.7;
#include "all.inc"
#include "pumphouse.inc"
Studio(1)
Shoot(<-150,58,-330>, <4,36,0>, 36, <-20,28,-32>, 5)
Paper(-26, 420, srgb <0.30,0.33,0.40>)
Surround(rgb <0.05,0.07,0.11>*1.6)
Window_Light(<-520,560,240>, <0,40,0>, 420, 420, rgb <0.55,0.68,1>*0.26)
Reflection_Card(<-900,700,420>, <0,0,0>, 700, 620, rgb <0.4,0.6,1>, 0.15)
union { PH_Model(1.1) rotate y*10 }
