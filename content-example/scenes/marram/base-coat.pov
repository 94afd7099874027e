// Base coat begun: hull grey, deck buff, ports plugged with foam; the boat stands on a bottle cap.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-60,170,-355>, <0,52,0>, 39.5, <0,52,-28>, 7)
Bench(7, 480)
Bench_Day(1, 0.6)
union {
  union {
    MR_Model(2, 0, 0, 0, 0, 0, 0)
    // foam plugs in the ports, tape over the glass
    #for (I, 0, 2) #declare Xa = -26.5+I*12.5; #declare Xb = (I=2 ? 9.5 : Xa+9.5); box { <Xa-0.4,42.2,-WhZ-1.3>, <Xb+0.4,53.3,-WhZ-1.15> texture { T_Tape } } #end
    #for (I, 0, 3) object { superellipsoid { <1,0.4> scale <2.55,2.55,2> } translate z*0.2 texture { pigment { granite color_map { [0.2 srgb <0.62,0.56,0.34>] [0.9 srgb <0.74,0.68,0.44>] } scale 1.5 } normal { granite 0.5 scale 0.7 } finish { F_Matt } } MR_PortPlace(MR_Ports[I], -1) } #end
  }
  // a bottle cap, ribbed
  union { difference { cylinder { <0,-22,0>, <0,2.4,0>, 21 } #for (I,0,59) cylinder { <21.3,-23,0>, <21.3,-1,0>, 0.7 rotate y*I*6 } #end } torus { 20, 1 translate y*2 }
    translate x*-6 pigment { srgb <0.62,0.10,0.08> } finish { F_Plastic } }
  rotate y*7 translate y*22
}
object { Jar(MR_Grey, srgb 0.1, 1) translate <-104,0,84> }
object { Jar(MR_Buff, srgb 0.1, 0) translate <-138,0,96> }
object { Brush(2.2, srgb <0.10,0.14,0.30>, MR_Grey) rotate y*-12 translate <-110,0,-70> }
object { Tape_Roll(26, 12) translate <128,0,-46> }
object { Knife() rotate y*174 translate <80,0,-84> }
