// Dunnock unpacked: sprues, track runs, markings, instructions.
#version 3.7;
#include "all.inc"
#include "dunnock.inc"
Studio(1)
Shoot(<24,340,-210>, <0,0,6>, 50, <0,3,0>, 5)
Bench(-3, 560)
Bench_Day(1, 0.4)
#declare A1 = array[15] { 16, 14, 19, 20, 13, 14, 18, 16, 25, 11, 19, 14, 20, 17, 13 };
#declare B1 = array[12] { 18, 18, 17, 8, 20, 19, 14, 14, 16, 11, 25, 13 };
#declare C1 = array[8] { 15, 15, 15, 15, 15, 15, 15, 15 };
object { Sprue(5, 3, 28, 33, A1) texture { DN_T } rotate y*6 translate <-86,0,40> }
object { Sprue(4, 3, 29, 33, B1) texture { DN_T } rotate y*-5 translate <72,0,46> }
object { Sprue(4, 2, 26, 34, C1) texture { DN_Dark } rotate y*-11 translate <-74,0,-64> }
object { Sprue(4, 2, 26, 34, C1) texture { DN_Dark } rotate y*3 rotate <0,0,2> translate <-52,4.4,-48> }
object { Sprue(4, 2, 29, 33, A1) texture { DN_T } rotate y*14 translate <84,3,-52> }
object { Decal_Sheet(64, 48, srgb <0.75,0.35,0.05>, srgb <0.08,0.08,0.08>) rotate y*-14 translate <16,0.2,-106> }
object { Booklet(120, 84) rotate y*19 translate <168,0,126> }
object { Knife() rotate y*168 translate <176,0,-70> }
