// Base coat begun: hull grey over the masked boot topping, upper works in primer.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-60,140,-360>, <0,44,0>, 39.5, <0,42,-28>, 7)
Bench(7, 480)
Bench_Day(1, 0.6)
union {
  union {
    MR_Model(2, 0, 0, 0, 0, 0, 0)
    // tape along the waterline and over the glass
    #for (I, 0, 47) #declare Ua = 0.01+I*0.0193; #declare Ub = 0.01+(I+1)*0.0193;
      #if (mr_yc(Ub) < MR_WL)
        #declare Sa = 0.4+0.6*(MR_WL-mr_yc(Ua))/(mr_sh(Ua)-mr_yc(Ua)); #declare Sb = 0.4+0.6*(MR_WL-mr_yc(Ub))/(mr_sh(Ub)-mr_yc(Ub));
        #declare A = MR_P(Ua,Sa,-1,-0.12); #declare B = MR_P(Ub,Sb,-1,-0.12);
        triangle { A-y*3.2, A-y*0.1, B-y*0.1 texture { T_Tape } } triangle { A-y*3.2, B-y*3.2, B-y*0.1 texture { T_Tape } }
      #end #end
    #for (I, 0, 2) #declare Xa = -26.5+I*12.5; #declare Xb = (I=2 ? 9.5 : Xa+9.5); box { <Xa-0.4,42.2,-WhZ-1.3>, <Xb+0.4,53.3,-WhZ-1.15> texture { T_Tape } } #end
    #for (I, 0, 3) cylinder { <0,0,0.6>, <0,0,0.75>, 2.5 texture { T_Tape } MR_PortPlace(MR_Ports[I], -1) } #end
  }
  MR_Cradle() rotate y*7 translate y*16
}
object { Jar(MR_Grey, srgb 0.1, 1) translate <-128,0,60> }
object { Jar(MR_Boot, srgb 0.1, 0) translate <-156,0,34> }
object { Brush(2.2, srgb <0.10,0.14,0.30>, MR_Grey) rotate y*-12 translate <-110,0,-70> }
object { Tape_Roll(26, 12) translate <128,0,-46> }
object { Knife() rotate y*174 translate <80,0,-84> }
