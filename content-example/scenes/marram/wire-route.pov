// Underneath: the leads come out through the mounting rod in the keel, fan out to the terminal strip.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-44,150,-205>, <-2,16,-14>, 44, <-10,34,-22>, 5)
Bench(7, 480)
Bench_Day(1, 0.6)
union {
  // hull upside down on a folded cloth
  union { MR_Half(-1, T_Plastic(MR_Plastic), T_Plastic(MR_Plastic)) MR_Half(1, T_Plastic(MR_Plastic), T_Plastic(MR_Plastic)) MR_Rails(0) MR_Under(0) MR_Deck(0,1)
    MR_PortFittings(0, -1, 0) MR_PortFittings(0, 1, 0)
    // seam with a line of filler
    #for (I, 0, 22) sphere { 0, 0.8+0.5*mod(I*0.618,1) scale <2.6,0.28,0.8> translate <-92+I*5.4, mr_kl((-92+I*5.4+102)/192)-0.05, 0> pigment { srgb <0.84,0.83,0.78> } finish { F_Matt } } #end
    rotate x*180 translate y*46 }
  difference { cylinder { <-18,44,0>, <-18,62,0>, 3 } cylinder { <-18,43,0>, <-18,63,0>, 2.4 } texture { pigment { srgb <0.80,0.62,0.28> } finish { F_Steel } } }
  torus { 3.4, 0.7 translate <-18,46,0> pigment { rgbf <0.9,0.85,0.7,0.4> } finish { F_Gloss } }
  #declare Wc = array[8] { W_RedEn, W_GreenEn, W_RedEn, W_GreenEn, W_Gold, W_BlueEn, W_Copper, W_Black }
  #for (I, 0, 7)
    // twisted together out of the rod and over the bottom, fanned out at the board
    #declare Ia = I; #ifdef (Tw) #undef Tw #end #declare Tw = function (x) { Ia*pi/4 + x*1.9 }
    object { Wire(array[11] {
      <-18+0.9*cos(Tw(0)),50,0.9*sin(Tw(0))>, <-18+0.9*cos(Tw(1)),61,0.9*sin(Tw(1))>, <-19+1.0*cos(Tw(2)),67,-4+1.0*sin(Tw(2))>,
      <-20+1.1*cos(Tw(3)),66+1.1*sin(Tw(3)),-13>, <-21+1.1*cos(Tw(4)),57+1.1*sin(Tw(4)),-24>, <-21+1.1*cos(Tw(5)),44+1.1*sin(Tw(5)),-34>,
      <-20+1.1*cos(Tw(6)),28+1.1*sin(Tw(6)),-41>, <-19+1.3*cos(Tw(7)),12+1.3*sin(Tw(7)),-45>,
      <-19+(I-3.5)*1.0,1.4+0.4*mod(I,3),-50>, <-14+(I-3.5)*4.4,1.3,-56>, <-8.6+(I-3.5)*5.08,2.4,-62> }, 0.27) T_Enamel(Wc[I]) }
  #end
  rotate y*5 translate z*14
}
object { Strip_Board(22, 7) translate <-34,0,-74> }
#for (I, 0, 7) Solder(<-26.4+I*5.08,2.2,-60.2>, 0.9) #end
object { Wire(array[5] { <12,2.2,-70>, <26,0.6,-74>, <44,0.6,-66>, <70,0.6,-72>, <110,0.6,-60> }, 0.7) texture { pigment { color W_Red } finish { F_Satin } } }
object { Wire(array[5] { <12,2.2,-66>, <28,0.6,-64>, <46,0.6,-58>, <72,0.6,-66>, <112,0.6,-52> }, 0.7) texture { pigment { color W_Black } finish { F_Satin } } }
// cloth
#declare Fold = function (x,y,z) { 0.8*f_noise3d(x*0.03,1,z*0.05) + 0.3*f_noise3d(x*0.1,3,z*0.12) }
height_field { function 200, 200 { 0.35 + 0.4*f_noise3d(x*5,y*4,1) + 0.12*f_noise3d(x*16,y*13,4) } smooth translate <-0.5,0,-0.5> scale <230,9,96> rotate y*9 translate <0,-3,20>
  texture { pigment { srgb <0.56,0.52,0.45> } normal { quilted 0.3 scale 0.8 } finish { F_Matt } } }
object { Tweezers(1.6) rotate y*16 translate <46,0,-92> }
object { Spool(W_Copper, 15, 18) translate <-112,0,-40> }
