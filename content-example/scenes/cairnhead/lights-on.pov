// All lamps on; pair with lights-off.
#version 3.7;
#declare Lit = 1.0;
#include "lights-pair.inc"
