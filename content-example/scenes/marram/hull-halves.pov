// Hull halves in bare plastic: locating pins, frames, port holes.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#declare Step = 0;
#include "hull-halves.inc"
object { Sanding_Stick(86, srgb <0.42,0.26,0.16>) rotate y*-14 translate <-128,0,-78> }
object { Knife() rotate y*196 translate <150,0,-52> }
object { Dropper(srgb <0.80,0.80,0.84>) translate <-150,0,92> }
object { Tweezers(1.6) rotate y*12 translate <18,0,-98> }
#declare Rs = seed(77);
#for (I, 0, 24) object { RBox(<-0.7,0,-0.5>, <0.9+rand(Rs),0.9,0.5>, 0.15) texture { Kit } rotate y*360*rand(Rs) translate <-120+110*rand(Rs),0,-86+24*rand(Rs)> } #end
