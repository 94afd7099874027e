// A leak found in the dark: the joint under the wheelhouse roof.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#include "dark.inc"
Studio(1)
Shoot(<-74,58,-112>, <-9,66,-14>, 31, <-14,70,-19>, 4)
Dark_Bench(6, 440, 2.4)
union {
  union { MR_Hull(1, T_WhiteCoat, 0) MR_Wheelhouse(1, T_WhiteCoat, 1.25, 0) MR_Fittings(1)
    // what shows at the joint, brighter near the lamp
    #for (I, 0, 48) #declare X = WhX1+1+I*0.92; #declare Bq = exp(-pow((X+15)/11,2))*(0.55+0.45*f_noise3d(X*0.8,1,1));
      box { <X,WhTop-0.22,-WhZ-0.68>, <X+0.95,WhTop+0.02,-WhZ-0.5> pigment { color L_Amber } finish { ambient 0 diffuse 0 emission 4.5*Bq } no_shadow } #end
    #for (I, 0, 26) #declare Z = -WhZ+I*0.5; #declare Bq = exp(-pow((Z+WhZ)/8,2))*(0.5+0.5*f_noise3d(Z*0.8,1,4));
      box { <WhX1-0.12,WhTop-0.22,Z>, <WhX1,WhTop+0.02,Z+0.52> pigment { color L_Amber } finish { ambient 0 diffuse 0 emission 3*Bq } no_shadow } #end
    #for (I, 0, 7) light_source { <WhX1+5+I*4,WhTop-0.3,-WhZ-1.2> color L_Amber*0.45*exp(-pow((WhX1+5+I*4+15)/11,2)) fade_distance 2.2 fade_power 2 } #end
  }
  MR_Cradle() translate y*16 rotate y*6
}
// a slip of tape stuck to the sill, ready to mark the place
union { box { <-5,0,-0.1>, <4,3.4,0.1> texture { T_Tape } rotate z*6 } rotate y*6 translate <-33,53,-21.3> }
