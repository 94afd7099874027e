// The white-coated half with the two saloon lamps in place and their leads laid along the deck ledge.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-6,105,-104>, <14,9,4>, 44, <18,14,6>, 4)
Bench(-5, 420)
Bench_Day(0.95, 0.7)
#declare Kit = T_Plastic(MR_Plastic)
// the half lies with its inside up; local frame: x along, y up to the deck, z depth
#macro Lay() rotate x*-90 translate y*33.5 rotate y*-4 translate <-4,0,-14> #end
union {
  MR_Half(1, Kit, Kit) MR_Skin(1, T_WhiteCoat) MR_HalfFittings(1, T_WhiteCoat, 0)
  MR_PortFittings(0, 1, 0)
  // lamp shelves under the deck ledge
  #declare Lx = array[2] { 46, -14 }
  #for (I, 0, 1)
    object { RBox(<Lx[I]-6,22,4>, <Lx[I]+6,23.2,24>, 0.3) texture { T_WhiteCoat } }
    object { LED(3, C_LedMilk, 4, 0.5, L_Warm) rotate x*180 translate <Lx[I],21.8,14> }
    Solder(<Lx[I]-1.3,24.4,14>, 0.8) Solder(<Lx[I]+1.3,24.4,14>, 0.8)
    Lamp_Light(<Lx[I],17,14>, L_Warm, 0.5, 14)
    sphere { 0, 2.2 scale <1.4,0.7,1.2> translate <Lx[I],23.8,18> pigment { rgbf <0.95,0.93,0.85,0.5> } finish { F_Gloss } }
  #end
  #declare K = 0;
  #for (I, 0, 1)
    object { Wire(array[8] { <Lx[I]-1.3,24.6,14>, <Lx[I]-3,25.5,17>, <Lx[I]-8,25,21>, <Lx[I]-16,24.4,23>, <Lx[I]-26,24.6,23.4>, <Lx[I]-38,24.2,23.6>, <-64-I*3,22,22>, <-70-I*3,14,10> }, 0.22) T_Enamel(W_RedEn) }
    object { Wire(array[8] { <Lx[I]+1.3,24.6,14>, <Lx[I],26.4,18>, <Lx[I]-7,25.9,22>, <Lx[I]-15,25.4,23.2>, <Lx[I]-26,25.7,23.6>, <Lx[I]-38,25.2,23.8>, <-66-I*3,22,20>, <-73-I*3,14,9> }, 0.22) T_Enamel(W_GreenEn) }
  #end
  // dabs of white glue hold the run
  #for (I, 0, 5) sphere { 0, 1.3 scale <1.3,0.8,0.8> translate <34-I*17,25,23.4> pigment { srgb <0.93,0.92,0.88> } finish { F_Gloss } } #end
  Lay()
}
object { Tweezers(2.2) rotate z*-16 rotate y*34 translate <40,26,-20> }
object { Spool(W_RedEn, 14, 18) translate <-72,0,62> }
object { Spool(W_GreenEn, 14, 18) translate <-40,0,74> }
object { Iron() rotate y*22 translate <52,0,-66> }
