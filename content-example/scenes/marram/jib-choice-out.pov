// The jib swung out to starboard.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#declare Swing = 84;
#declare Rise = 20;
#include "jib.inc"
