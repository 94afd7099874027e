// Base coats on, windows still masked.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-130,185,-430>, <2,112,0>, 36, <0,125,-15>, 8)
Bench(-7, 480)
Bench_Day(1, 0.5)
union {
  union { CH_Tower(2, 0, T_WhiteCoat)
    // masks: window panes taped
    #for (I, 0, 7) #if (CH_Kinds[I] = 1) box { <-8.3,12.9,-CabApo-0.95>, <8.3,25.2,-CabApo-0.75> texture { T_Tape } rotate y*(-45*I) translate y*CH_CabY } #end #end
    // tape above and below the red bands
    #for (I, 0, 7) box { <-CabS/2-0.1,25.6,-CabApo-0.12>, <CabS/2+0.1,28.3,-CabApo-0.02> texture { T_Tape } rotate y*(-45*I) translate y*CH_CabY } #end
    union { difference { cone { <0,20.2,0>, 9.34, <0,22.9,0>, 9.17 } cylinder { <0,0,0>, <0,50,0>, 8 } } difference { cone { <0,32.2,0>, 8.6, <0,34.8,0>, 8.42 } cylinder { <0,0,0>, <0,50,0>, 7.6 } } texture { T_Tape } translate y*(CH_CabY+CabH+10.5) }
    difference { cylinder { <0,CH_CabY+CabH+47+5.7,0>, <0,CH_CabY+CabH+47+15.1,0>, 14.5 } cylinder { <0,CH_CabY+80,0>, <0,CH_CabY+120,0>, 14.3 } texture { T_Tape } }
  }
  object { Block(90, 18, 76, 4) translate y*-24 }
  rotate y*16 translate <-6,24,30>
}
union { CH_Hut(2, 0) object { Paint_Stick(20) translate y*-4 } translate y*52 rotate y*-24 translate <82,-1,26> }
object { Block(50, 10, 44, 7) rotate y*-10 translate <84,0,28> }
object { Jar(CH_Ivory, srgb 0.10, 1) translate <-86,0,20> }
object { Jar(CH_Red, srgb 0.10, 0) translate <-112,0,56> }
object { Jar(CH_Roof, srgb 0.10, 0) translate <-78,0,66> }
object { Brush(1.8, srgb <0.45,0.10,0.08>, srgb <0.78,0.75,0.66>) rotate y*-22 translate <-84,0,-34> }
object { Tape_Roll(27, 10) translate <52,0,-36> }
object { Knife() rotate y*200 translate <96,0,-66> }
