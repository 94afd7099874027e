// The tower put together dry, in bare plastic, on the bench.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-120,165,-440>, <2,122,0>, 33, <0,120,-15>, 9)
Bench(9, 480)
Bench_Day(1, 0.5)
union { CH_Tower(0, 0, T_Plastic(C_Plastic)) rotate y*16 translate <-6,0,24> }
union { CH_Hut(0, 0) rotate y*-24 translate <74,4,20> }
// elastic bands of tape over the cabin joints
object { RBox(<-5,0,-0.3>, <5,26,0.1>, 0.05) texture { T_Tape } translate <0,111,-28.6> rotate y*38 translate <-6,0,24> }
object { RBox(<-16,0,-0.35>, <9,5,0.1>, 0.05) texture { T_Tape } translate <0,128,-28.4> rotate y*-29 translate <-6,0,24> }
object { Tape_Roll(30, 12) translate <-92,0,40> }
object { Dropper(srgb <0.86,0.84,0.74>) translate <-58,0,86> }
object { Jar(srgb <0.60,0.62,0.62>, srgb <0.12,0.12,0.13>, 0) translate <-96,12,44> }
object { Knife() rotate y*24 translate <-86,0,-58> }
object { Tweezers(1.4) rotate y*8 translate <6,0,-66> }
object { Sanding_Stick(80, srgb <0.42,0.26,0.16>) rotate y*-28 translate <34,0,-44> }
// swarf and cut gates
#declare Rs = seed(5);
#for (I, 0, 26) object { RBox(<-0.8,0,-0.5>, <0.8+rand(Rs),0.9,0.5>, 0.15) T_Plastic(C_Plastic) rotate y*360*rand(Rs) translate <-60+120*rand(Rs),0,-70+45*rand(Rs)> } #end
