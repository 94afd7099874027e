// The kit unpacked: tray with sprues, bag of clear parts, etched fret, instructions.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<34,340,-262>, <26,0,16>, 52, <0,5,10>, 6)
Bench(-4, 560)
Bench_Day(0.95, 0.4)
#declare Grey = T_Plastic(C_Plastic)
#declare S1 = array[15] { 1, 2, 1, 3, 6, 6, 7, 11, 4, 5, 10, 9, 1, 12, 2 };
#declare S2 = array[12] { 6, 5, 4, 12, 13, 8, 11, 10, 6, 7, 4, 5 };
#declare S3 = array[12] { 7, 13, 12, 1, 1, 11, 4, 6, 10, 9, 8, 5 };
union {
  Box_Tray(262, 172, 36, srgb <0.30,0.40,0.44>)
  object { Sprue(5, 3, 30, 35, S1) texture { Grey } rotate y*91 rotate z*-2 translate <-70,6,0> }
  object { Sprue(5, 3, 26, 34, S3) texture { Grey } rotate y*-3 rotate x*3 translate <52,5,24> }
  object { Sprue(4, 3, 27, 33, S2) texture { Grey } rotate y*8 rotate <2,0,4> translate <60,15,-22> }
  rotate y*3 translate <0,0,45>
}
object { Booklet(150, 105) rotate y*14 translate <-130,0,-92> }
object { Clear_Sprue(4, 2, 15, 11, 0) rotate y*-10 translate <12,1,-86> }
object { Film_Bag(122, 62, 11) rotate y*-10 translate <12,0.3,-86> }
object { Etched_Fret(60, 44) rotate y*9 translate <112,0.2,-84> }
object { Tweezers(1.2) rotate y*-128 translate <178,0,-70> }
// the resin rock
union { CH_Rock(0) rotate y*-30 translate <182,-0.2,122> }
