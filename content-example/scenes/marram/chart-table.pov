// The wheelhouse lit for the first time: amber on the chart table through the side windows.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-46,112,-128>, <-9,58,-14>, 29, <-14,58,-19>, 4)
Bench(6, 440)
Surround(rgb <0.05,0.06,0.09>)
Window_Light(<-620,560,160>, <0,20,0>, 420, 420, rgb <0.6,0.7,1>*0.16)
Desk_Light(<260,300,-160>, <0,40,0>, 60, L_Desk*0.22, 260)
union { union { MR_Hull(1, T_WhiteCoat, 0) MR_Wheelhouse(1, T_WhiteCoat, 1.1, 0) MR_Fittings(1) MR_Mast(1, 0) MR_SideLights(1, 0) } MR_Cradle() translate y*16 rotate y*6 }
object { Jar(MR_Grey, srgb 0.1, 0) translate <60,0,120> }
