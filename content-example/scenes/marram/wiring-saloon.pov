// The white-coated half with the two saloon lamps in place and their leads laid along the deck ledge.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-6,112,-84>, <-8,14,2>, 46, <-8,16,0>, 3.5)
Bench(-5, 420)
Bench_Day(0.95, 0.7)
#declare Kit = T_Plastic(MR_Plastic)
// the half lies with its inside up; local frame: x along, y up to the deck, z depth
#macro Lay() rotate x*90 translate y*33.6 rotate y*174 translate <10,0,26> #end
union {
  MR_Half(1, Kit, Kit) MR_Skin(1, T_WhiteCoat) MR_HalfFittings(1, T_WhiteCoat, 0)
  MR_PortFittings(0, 1, 0)
  // lamp shelves under the deck ledge
  #declare Lx = array[2] { 46, -14 }
  #for (I, 0, 1)
    object { RBox(<Lx[I]-5,18,20.2>, <Lx[I]+5,25.5,21.2>, 0.3) texture { T_WhiteCoat } }
    object { RBox(<Lx[I]-5,24.6,20.2>, <Lx[I]+5,25.6,26>, 0.3) texture { T_WhiteCoat } }
    object { LED(3, C_LedMilk, 0.8, 0.8, L_Warm) rotate x*-90 translate <Lx[I],21.6,20.2> }
    Solder(<Lx[I]-4.2,24.2,20>, 0.8) Solder(<Lx[I]+4.2,24.2,20>, 0.8)
    object { Wire(array[3] { <Lx[I]-1.3,21.6,20>, <Lx[I]-3,22.4,19.5>, <Lx[I]-4.2,24.2,20> }, 0.22) texture { pigment { srgb 0.75 } finish { F_Brushed } } }
    object { Wire(array[3] { <Lx[I]+1.3,21.6,20>, <Lx[I]+3,22.4,19.5>, <Lx[I]+4.2,24.2,20> }, 0.22) texture { pigment { srgb 0.75 } finish { F_Brushed } } }
    Lamp_Light(<Lx[I],21.6,14.5>, L_Warm, 0.9, 13)
  #end
  #declare K = 0;
  #for (I, 0, 1)
    object { Wire(array[8] { <Lx[I]-4.2,24.3,19.8>, <Lx[I]-5.6,25.6,20.4>, <Lx[I]-9,25,22>, <Lx[I]-16,24.4,23>, <Lx[I]-26,24.6,23.4>, <Lx[I]-38,24.2,23.6>, <-64-I*3,22,22>, <-70-I*3,14,10> }, 0.22) T_Enamel(W_RedEn) }
    object { Wire(array[8] { <Lx[I]+4.2,24.3,19.8>, <Lx[I]+1,26.6,19.6>, <Lx[I]-7,26.2,21.6>, <Lx[I]-15,25.4,23.2>, <Lx[I]-26,25.7,23.6>, <Lx[I]-38,25.2,23.8>, <-66-I*3,22,20>, <-73-I*3,14,9> }, 0.22) T_Enamel(W_GreenEn) }
  #end
  // dabs of white glue hold the run
  #for (I, 0, 5) sphere { 0, 1.3 scale <1.3,0.8,0.8> translate <34-I*17,25,23.4> pigment { srgb <0.93,0.92,0.88> } finish { F_Gloss } } #end
  Lay()
}
object { Tweezers(2.2) rotate z*-7 rotate y*24 translate <27,14,-2> }
object { Spool(W_RedEn, 14, 18) translate <-72,0,62> }
object { Spool(W_GreenEn, 14, 18) translate <-40,0,74> }
object { Iron() rotate y*22 translate <52,0,-66> }
