// Light blocking, coat 3 of 3: white.
#version 3.7;
#declare Step = 3;
global_settings { assumed_gamma 1.0 }
#include "studio.inc"
#include "surface.inc"
#declare Inside_Coat = texture { T_WhiteCoat }
#declare Coat_Colour = srgb <0.92,0.92,0.90>;
#include "coat.inc"
