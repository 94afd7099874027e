// Close up of the lit cabin: rack, desk and chair through the panes.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-62,156,-168>, <-14,156,-6>, 30, <-20,154,-22>, 5)
Paper(-25, 420, srgb <0.30,0.36,0.45>)
Surround(rgb <0.10,0.15,0.26>*0.8)
Window_Light(<-620,520,100>, <0,150,0>, 460, 460, rgb <0.56,0.70,1.0>*0.40)
Window_Light(<700,220,400>, <0,150,0>, 300, 120, rgb <1.0,0.45,0.22>*0.20)
union { CH_Model(4, 0.85) rotate y*14 }
