// The clear parts in their bag, and the small frame of lenses beside it.
#version 3.7;
#include "all.inc"
#include "dunnock.inc"
Studio(1)
Shoot(<-8,140,-132>, <8,0,6>, 44, <0,4,0>, 4)
Bench(8, 440)
Bench_Day(1, 0.8)
// a sheet of grey card to lay them out on
object { RBox(<-96,0,-62>, <74,0.5,74>, 0.2) pigment { srgb <0.62,0.61,0.58> } finish { F_Matt } rotate y*4 }
object { Clear_Sprue(4, 3, 17, 14, 0) rotate y*7 translate <-22,1,14> }
object { Film_Bag(120, 92, 15) rotate y*7 translate <-22,0.2,14> }
// bag's folded head with two staples
union { box { <-60,0,0>, <60,0.4,12> texture { pigment { srgb <0.76,0.70,0.60> } finish { F_Matt } } }
  #for (I,-1,1,2) cylinder { <I*26-4,0.7,6>, <I*26+4,0.7,6>, 0.4 texture { pigment { srgb 0.75 } finish { F_Steel } } } #end
  rotate x*-6 rotate y*7 translate <-16,0.8,62> }
object { Clear_Sprue(3, 2, 9, 9, 1) rotate y*-13 translate <68,0.2,-18> }
union { union { DN_HeadLamp() rotate z*90 } translate <38,7,-44> }
union { union { DN_HeadLamp() rotate z*90 rotate y*70 } translate <54,7,-54> }
union { DN_HeadLamp() rotate y*60 translate <72,5.4,-56> }
object { Tweezers(1.4) rotate y*28 translate <-62,0,-54> }
