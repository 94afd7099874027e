// Light blocking, coat 1 of 3: black.
#version 3.7;
#declare Step = 1;
global_settings { assumed_gamma 1.0 }
#include "studio.inc"
#include "surface.inc"
#declare Inside_Coat = texture { T_BlackCoat }
#declare Coat_Colour = srgb <0.06,0.06,0.065>;
#include "coat.inc"
