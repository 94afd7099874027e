// The jib stowed fore and aft on its crutch.
#version 3.7;
#include "all.inc"
#include "marram.inc"
#declare Swing = 0;
#declare Rise = 0;
#include "jib.inc"
