// Lit in the dark: one room and the lantern.
#version 3.7;
#include "all.inc"
#include "lanternhouse.inc"
Studio(1)
Shoot(<-90,40,-400>, <-2,50,0>, 23.5, <-8,70,-10>, 5)
Paper(-42, 420, srgb <0.30,0.34,0.42>)
Surround(rgb <0.05,0.07,0.11>*1.6)
Window_Light(<-520,560,240>, <0,40,0>, 420, 420, rgb <0.55,0.68,1>*0.24)
Reflection_Card(<-900,700,420>, <0,0,0>, 700, 620, rgb <0.4,0.6,1>, 0.15)
union { LH_Model(1.15) rotate y*14 }
