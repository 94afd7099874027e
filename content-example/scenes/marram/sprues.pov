// Marram's sprues out of the box on the mat.
#version 3.7;
#include "all.inc"
#include "marram.inc"
Studio(1)
Shoot(<-20,330,-215>, <0,0,4>, 50, <0,3,0>, 5)
Bench(3, 560)
Bench_Day(1, 0.4)
#declare Kit = T_Plastic(MR_Plastic)
#declare A1 = array[12] { 21, 21, 22, 24, 11, 23, 5, 13, 4, 12, 8, 11 };
#declare B1 = array[10] { 23, 11, 4, 4, 24, 22, 13, 25, 5, 10 };
object { Sprue(4, 3, 29, 33, A1) texture { Kit } rotate y*8 translate <-84,0,24> }
object { Sprue(5, 2, 28, 33, B1) texture { Kit } rotate y*-6 translate <74,0,52> }
object { Sprue(3, 2, 29, 33, A1) texture { Kit } rotate y*-16 rotate <0,0,2> translate <-44,4.5,-46> }
// a hull half still on its gates
union { MR_Half(-1, Kit, Kit) rotate x*90 translate y*0.2 rotate y*-7 translate <62,0,-26> }
union { cylinder { <-110,1.5,0>, <108,1.5,0>, 1.5 } #for (I,0,5) cylinder { <-90+I*34,1.5,0>, <-90+I*34,1.5,5>, 0.9 } #end texture { Kit } rotate y*-7 translate <62,0,-34> }
object { Clear_Sprue(5, 2, 12, 12, 0) rotate y*12 translate <-122,0.4,-56> }
object { Booklet(120, 84) rotate y*-19 translate <-150,0,134> }
object { Decal_Sheet(62, 46, MR_Boot, srgb <0.10,0.22,0.36>) rotate y*10 translate <150,0.1,-62> }
object { Tweezers(1.2) rotate y*52 translate <158,0,-14> }
object { Side_Cutters(4) rotate y*-24 translate <34,0,-84> }
