// The hull halves held together dry with tape, seen from ahead against the window: a gap at the stem.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<232,52,-58>, <40,31,-4>, 30, <88,34,0>, 4)
Mat(450, 300, <0,0,20>, 4)
Table(-2.2)
// the window behind: sashes, a pale sky, out of focus
plane { x, -520 pigment { srgb <0.34,0.34,0.32> } finish { F_Matt } }
box { <-519,60,-260>, <-518,620,330> pigment { gradient y color_map { [0 srgb <0.80,0.85,0.90>] [1 srgb <0.66,0.78,0.92>] } scale 700 } finish { ambient 0 diffuse 0 emission 1.5 } }
#for (I, 0, 2) box { <-518,60,-264+I*292>, <-500,620,-252+I*292+6> pigment { srgb <0.82,0.81,0.78> } finish { F_Satin } } #end
box { <-518,300,-260>, <-504,316,330> pigment { srgb <0.82,0.81,0.78> } finish { F_Satin } }
box { <-518,40,-300>, <-440,60,380> pigment { srgb <0.78,0.77,0.74> } finish { F_Satin } }
Surround(rgb <0.55,0.60,0.66>*0.6)
Window_Light(<-480,340,30>, <40,20,0>, 420, 400, L_Day*1.0)
Desk_Light(<330,330,-260>, <60,20,-10>, 80, L_Desk*1.6, 320)
Reflection_Card(<-900,700,420>, <0,0,0>, 700, 620, rgb <0.93,0.97,1>, 2)
#declare Kit = T_Plastic(MR_Plastic)
union {
  union {
    // starboard half true, port half standing off at the stem
    union { MR_Half(-1, Kit, Kit) MR_HalfFittings(-1, Kit, 1) MR_PortFittings(0, -1, 0) }
    union { MR_Half(1, Kit, Kit) MR_HalfFittings(1, Kit, 0) MR_PortFittings(0, 1, 0) translate x*100 rotate y*-0.42 translate <-100,0,0.04> }
    // tape over the sheer and under the keel
    #for (I, 0, 2) #declare U = 0.20+I*0.23; #declare Pa = MR_P(U,1,-1,-0.2); #declare Pb = MR_P(U,1,1,-0.2);
      box { <Pa.x-4,Pa.y,Pa.z>, <Pa.x+4,Pa.y+0.25,Pb.z+0.6> texture { T_Tape } }
      box { <Pa.x-4,Pa.y-14,Pa.z-0.2>, <Pa.x+4,Pa.y+0.2,Pa.z> texture { T_Tape } rotate 0 }
      box { <Pb.x-4,Pb.y-14,Pb.z+0.3>, <Pb.x+4,Pb.y+0.2,Pb.z+0.6> texture { T_Tape } }
    #end
  }
  MR_Cradle()
  translate y*16
}
object { Sanding_Stick(86, srgb <0.42,0.26,0.16>) rotate y*70 translate <120,0,-70> }
object { Dropper(srgb <0.80,0.80,0.84>) translate <-60,0,90> }
