// All lamps off; pair with lights-on.
#version 3.7;
#declare Lit = 0;
#include "lights-pair.inc"
