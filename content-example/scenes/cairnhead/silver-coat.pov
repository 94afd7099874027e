// Light blocking, coat 2 of 3: silver.
#version 3.7;
#declare Step = 2;
global_settings { assumed_gamma 1.0 }
#include "studio.inc"
#include "surface.inc"
#declare Inside_Coat = texture { T_SilverCoat }
#declare Coat_Colour = srgb <0.56,0.57,0.58>;
#include "coat.inc"
