// Every lamp laid out on the mat in the order of the circuit, with its resistor; the meter waits.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-16,98,-112>, <3,0,10>, 46, <0,1,-8>, 3.5)
Bench(2, 420)
Bench_Day(1, 0.7)
#declare Lens = array[8] { C_LedMilk, C_LedMilk, C_LedAmber, C_LedClear, C_LedRed, C_LedGreen, C_LedClear, C_LedClear }
#declare Dia = array[8] { 3, 3, 3, 3, 1.8, 1.8, 1.8, 1.8 }
#declare Wc = array[8] { W_White, W_White, W_Gold, W_BlueEn, W_RedEn, W_GreenEn, W_Copper, W_Copper }
#declare Bn = array[3][3] { { B_Red, B_Red, B_Brown }, { B_Yellow, B_Violet, B_Brown }, { B_Brown, B_Black, B_Red } }
#for (I, 0, 7)
  #declare X = -49 + I*14;
  #declare Rt = mod(I*37, 11)-5;
  union {
    object { LED(Dia[I], Lens[I], 13, 0, L_Warm) rotate x*-90 translate <0,Dia[I]*0.61,-13> }
    Solder(<-Dia[I]*0.425, Dia[I]*0.6, 0.4>, 0.7) Solder(<Dia[I]*0.425, Dia[I]*0.6, -1>, 0.7)
    #declare Bi = (I < 2 ? 0 : (I < 4 ? 1 : 2));
    object { Resistor(Bn[Bi][0], Bn[Bi][1], Bn[Bi][2], B_Gold, 2.4) rotate y*90 translate <Dia[I]*0.425,1.3,6> }
    object { Wire(array[7] { <Dia[I]*0.425,1.2,11.2>, <1.6+mod(I,3)*0.5,0.4,15>, <3.5,0.35,24>, <1+mod(I*5,4),0.35,31>, <-2.5,0.35,36>, <-1,0.7,42>, <3,0.35,46> }, 0.2) T_Enamel(Wc[I]) }
    object { Wire(array[7] { <-Dia[I]*0.425,Dia[I]*0.6,0.4>, <-1.9,0.6,4>, <-2.6-mod(I,2),0.3,14>, <-0.6,0.5,25>, <-4,0.3,32>, <1,0.5,38>, <-3,0.3,46> }, 0.2) T_Enamel(W_Copper) }
    // heat-shrink
    cylinder { <Dia[I]*0.425,1.3,10>, <Dia[I]*0.425+0.5,0.9,14>, 0.85 pigment { srgb 0.05 } finish { F_Satin } }
    rotate y*Rt translate <X,0,-6>
  }
#end
object { Meter(srgb <0.78,0.52,0.10>) rotate y*-164 scale 0.9 translate <112,0,72> }
object { Probe(W_Red) rotate y*24 translate <34,0,-42> }
object { Probe(W_Black) rotate y*12 translate <22,0,-54> }
object { Spool(W_Copper, 16, 19) translate <-92,0,64> }
object { Spool(W_GreenEn, 13, 16) translate <-58,0,78> }
object { Spool(W_RedEn, 13, 16) rotate x*90 rotate y*30 translate <-26,13,84> }
object { Iron() rotate y*150 translate <-60,0,-36> }
