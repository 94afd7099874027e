// First light: saloon lamps behind the port holes, room dark, hull just closed with tape.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#include "dark.inc"
Studio(1)
Shoot(<-50,84,-330>, <4,36,0>, 40, <0,36,-30>, 6)
Dark_Bench(6, 480, 3.6)
union {
  union { MR_Hull(0, T_WhiteCoat, 2.4) MR_Fittings(0) 
    #for (I,0,4) #declare P = MR_P(0.12+I*0.19, 0.90, -1, -0.35); object { RBox(<-3.5,-12,-0.15>, <3.5,8,0.15>, 0.1) texture { T_Tape } translate P } #end }
  MR_Cradle() rotate y*6 translate y*16
}
object { Wire(array[6] { <-20,16,-2>, <-24,4,-20>, <-40,0.4,-44>, <-70,0.4,-60>, <-110,0.4,-58>, <-180,0.4,-84> }, 0.6) texture { pigment { color W_Red } finish { F_Satin } } }
object { Wire(array[6] { <-18,16,-2>, <-20,4,-22>, <-34,0.4,-50>, <-68,0.4,-68>, <-110,0.4,-68>, <-180,0.4,-96> }, 0.6) texture { pigment { color W_Black } finish { F_Satin } } }
object { Meter(srgb <0.70,0.48,0.10>) rotate y*-30 translate <150,0,90> }
