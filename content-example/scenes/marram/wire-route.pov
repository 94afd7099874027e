// The route before the deck goes on: two twisted bundles to the brass rod in the keel.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-74,225,-128>, <-8,18,6>, 44, <-14,18,0>, 5)
Bench(7, 480)
Bench_Day(1, 0.7)
#declare Kit = T_Plastic(MR_Plastic)
#declare Wc = array[8] { W_RedEn, W_GreenEn, W_RedEn, W_GreenEn, W_Gold, W_BlueEn, W_Copper, W_Black }
// a bundle of N wires from Pts, twisted; first colour C0
#macro Bundle(Pts, N, C0)
  #local M = dimension_size(Pts, 1);
  #local Sp = spline { natural_spline #for (K, 0, M-1) K, Pts[K] #end }
  #for (I, 0, N-1)
    union {
      #for (K, 0, (M-1)*12-1)
        #local A = K/12; #local B = (K+1)/12;
        #local Pa = Sp(A) + 0.42*<0.3*cos(A*7+I*2*pi/N), cos(A*7+I*2*pi/N), sin(A*7+I*2*pi/N)>;
        #local Pb = Sp(B) + 0.42*<0.3*cos(B*7+I*2*pi/N), cos(B*7+I*2*pi/N), sin(B*7+I*2*pi/N)>;
        cylinder { Pa, Pb, 0.25 } sphere { Pb, 0.25 }
      #end
      T_Enamel(Wc[C0+I])
    }
  #end
#end
union {
  MR_Half(-1, Kit, Kit) MR_Half(1, Kit, Kit) MR_Skin(-1, T_WhiteCoat) MR_Skin(1, T_WhiteCoat)
  MR_HalfFittings(-1, T_WhiteCoat, 0) MR_HalfFittings(1, T_WhiteCoat, 0)
  MR_PortFittings(0, -1, 0) MR_PortFittings(0, 1, 0) MR_Rails(0) MR_Under(0)
  // floor and bulkhead
  box { <-34,4,-26>, <-33.2,22,26> texture { T_WhiteCoat } clipped_by { box { <-40,4,-27>, <-20,22,27> } } }
  // brass rod, soldered collar
  difference { cylinder { <-18,-3,0>, <-18,19,0>, 3 } cylinder { <-18,-5,0>, <-18,20,0>, 2.3 } texture { pigment { srgb <0.80,0.62,0.28> } finish { F_Steel } } }
  sphere { 0, 5 scale <1.2,0.35,1> translate <-18,2.4,0> pigment { rgbf <0.90,0.86,0.74,0.4> } finish { F_Gloss } }
  Bundle(array[9] { <56,21,16>, <46,20,20>, <32,17,24>, <18,12,25>, <6,8,20>, <-4,9,10>, <-12,19,2.5>, <-17.6,23,0.6>, <-18.2,12,0.2> }, 4, 0)
  Bundle(array[8] { <-88,17,18>, <-74,14,22>, <-56,10,24>, <-40,9,19>, <-30,12,10>, <-23,19,2>, <-18.6,22.6,-0.4>, <-18,12,-0.2> }, 4, 4)
  #declare Dab = array[3] { <32,17,24.6>, <6,7.6,20.4>, <-56,9.6,24.6> }
  // dabs of clear acrylic at the bends
  #for (I, 0, 2) sphere { 0, 2 scale <1.3,0.6,1> translate Dab[I] pigment { rgbf <0.95,0.95,0.92,0.5> } finish { F_Gloss } } #end
  // the ends wait under the fore peak with a scrap of tape
  box { <-2,-0.1,-4>, <4,0.1,4> texture { T_Tape } rotate x*50 translate <47,19.6,20> }
  MR_Cradle()
  rotate y*-4 translate y*16
}
// the deck beside it, underside up
union { MR_Deck(0, 0) rotate x*180 translate y*26 rotate y*8 translate <8,1.5,96> }
object { Tweezers(1.6) rotate y*30 translate <40,0,-66> }
object { Spool(W_GreenEn, 15, 18) translate <-128,0,46> }
object { Spool(W_RedEn, 15, 18) translate <-112,0,82> }
