// The rock in its sea, before the tower is set: lamp leads up through the brass tube, the hut in place.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-150,150,-240>, <0,8,-4>, 42, <-10,24,-20>, 6)
Table(-27.2)
union { Mat(450, 300, <0,-25,20>, 8) }
Back_Wall(480)
Bench_Day(1, 0.6)
union {
  CH_Plinth() CH_Rock(4) CH_Sea(4) CH_Tufts()
  union { CH_Hut(4, 0) rotate y*12 translate CH_HutAt }
  // the tube and the leads for the tower
  difference { cylinder { <0,-2,0>, <0,7,0>, 3.2 } cylinder { <0,-1,0>, <0,8,0>, 2.6 } texture { pigment { srgb <0.80,0.62,0.28> } finish { F_Steel } } translate CH_At }
  #for (I, 0, 6)
    #declare Cw = array[7] { W_White, W_White, W_White, W_RedEn, W_RedEn, W_GreenEn, W_Black }
    object { Wire(array[5] { CH_At+<-1+I*0.3,2,0.3*I-1>, CH_At+<-0.6+I*0.5,10,I*0.2>, CH_At+<-8+I*3,24-abs(I-3)*2,-3+I>, CH_At+<-22+I*7.4,20-abs(I-3)*2.4,-9+I*2.2>, CH_At+<-32+I*10.4,9+mod(I,3)*4,-17+I*3> }, 0.3) T_Enamel(Cw[I]) }
  #end
  rotate y*10
}
object { Jar(srgb <0.40,0.44,0.20>, srgb 0.1, 1) translate <128,-25,40> }
object { Brush(1.8, srgb <0.45,0.10,0.08>, srgb <0.30,0.2,0.12>) rotate y*-150 translate <150,-25,-30> }
object { Tweezers(1.4) rotate y*34 translate <-150,-25,-70> }
object { Spool(W_Copper, 16, 20) translate <-150,-25,70> }
