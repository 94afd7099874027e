// Cabin shell and roof in bare plastic; three lamp holes drilled in the ceiling.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-10,120,-165>, <4,6,2>, 42, <14,14,-6>, 5)
Bench(-12, 420)
Bench_Day(1, 0.7)
#declare Bare = T_Plastic(C_Plastic)
union { CH_CabinFloor(0, texture { Bare }) CH_CabinShell(0, texture { Bare }, 0, 0) rotate y*20 translate <-46,0,22> }
// roof upside down, drilled
difference {
  union { CH_Roof_Part(0, texture { Bare })
    union { box { <-0.12,CabH-0.66,-25>, <0.12,CabH,25> } box { <-21,CabH-0.66,-10.12>, <21,CabH,-9.88> } box { <-19,CabH-0.66,-15.12>, <19,CabH,-14.88> } pigment { srgb <0.30,0.30,0.32> } finish { F_Satin } } }
  union { #for (I, 0, 2) cylinder { <CH_LampPlaces[I].x,20,CH_LampPlaces[I].z>, <CH_LampPlaces[I].x,60,CH_LampPlaces[I].z>, 1.6 } #end
    texture { pigment { srgb <0.10,0.105,0.11> } finish { F_Matt } } }
  translate y*-45 rotate z*180 rotate y*-24 rotate x*3 translate <42,1,-2>
}
#declare Rs = seed(8);
#for (I, 0, 22) #local A = 2*pi*rand(Rs); #local R = 4+36*rand(Rs);
  union { #for (K, 0, 7) sphere { <0.55*cos(K*0.9), 0.25+K*0.16, 0.55*sin(K*0.9)>, 0.16+0.1*rand(Rs) } #end
    T_Plastic(C_Plastic) rotate <90*rand(Rs),360*rand(Rs),90*rand(Rs)> translate <42+R*cos(A), (R < 24 ? 13.4 : 0.2), -2+R*sin(A)> }
#end
object { Pin_Vise(3.2) rotate x*-12 rotate z*-78 rotate y*-28 translate <10,4.2,-52> }
object { Knife() rotate y*190 translate <-10,0,-66> }
union { cone { 0, 0.2, <0,0,9>, 2.2 pigment { srgb <0.80,0.64,0.42> } finish { F_Matt } } cylinder { <0,0,9>, <0,0,90>, 3.4 pigment { srgb <0.12,0.25,0.32> } finish { F_Satin } } rotate y*-60 translate <88,3.4,46> }
object { LED(3, C_LedClear, 22, 0, L_Warm) rotate x*-90 rotate y*60 translate <-6,2,-20> }
object { LED(3, C_LedClear, 22, 0, L_Warm) rotate x*-90 rotate y*95 translate <-8,2,-32> }
object { LED(3, C_LedClear, 22, 0, L_Warm) rotate x*-90 rotate y*40 translate <-16,2,-24> }
