// Hull halves, tracks, cutter and lamps held together dry with tape.
#version 3.7;
#include "all.inc"
#include "dunnock.inc"
Studio(1)
Shoot(<165,125,-275>, <22,38,0>, 40, <50,44,-36>, 6)
Bench(-6, 480)
Bench_Day(1, 0.6)
union {
  DN_Model()
  // tape over the joint
  #for (I,0,2) box { <-48+I*38,27,-36.5>, <-40+I*38,47,-36.2> texture { T_Tape } } #end
  box { <66.05,28,-6>, <66.3,40,6> texture { T_Tape } }
  box { <8,87,-21.5>, <15,92.2,-18.2> texture { T_Tape } }
  rotate y*-14 translate <-10,1.4,24>
}
object { Sprue(3, 1, 28, 33, array[3] { 14, 20, 13 }) texture { DN_T } rotate y*24 translate <-120,0,-24> }
object { Tape_Roll(26, 12) translate <-96,0,104> }
object { Tweezers(1.4) rotate y*166 translate <84,0,-96> }
object { Sanding_Stick(84, srgb <0.42,0.26,0.16>) rotate y*-18 translate <-60,0,-74> }
