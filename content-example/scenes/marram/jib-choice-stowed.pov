// The jib stowed forward along the cabin side, on its crutch.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#declare Swing = 176;
#declare Rise = 0;
#include "jib.inc"
