// The wooden base turned over: strip board, resistors, switch, socket, wires up the brass tube.
#version 3.7;
#include "all.inc"
Studio(1)
Shoot(<-40,190,-185>, <2,2,0>, 48, <0,8,-4>, 5)
Bench(-9, 460)
Bench_Day(1, 0.6)
#declare Wood_In = texture { Wood_Pigment(2, srgb <0.52,0.34,0.21>, srgb <0.42,0.26,0.15>, srgb <0.34,0.2,0.11>) finish { F_Matt } }
union {
  difference {
    object { RBox(<-97,0,-97>, <97,26,97>, 2) texture { Wood_Pigment(2, srgb <0.34,0.17,0.09>, srgb <0.24,0.11,0.06>, srgb <0.16,0.07,0.04>) finish { F_Satin } } }
    box { <-78,8,-62>, <78,40,62> texture { Wood_In } }
    box { <-100,12,-9>, <-70,30,9> texture { Wood_In } }
    cylinder { <0,-5,0>, <0,30,0>, 5 texture { Wood_In } }
    #for (I, -1, 1, 2) #for (J, -1, 1, 2) cylinder { <I*88,20,J*88>, <I*88,30,J*88>, 1.6 pigment { srgb 0.05 } } #end #end
  }
  // felt feet
  #for (I, -1, 1, 2) #for (J, -1, 1, 2) cylinder { <I*80,26,J*82>, <I*80,27.6,J*82>, 8 pigment { granite color_map { [0 srgb <0.10,0.20,0.14>] [1 srgb <0.15,0.27,0.19>] } scale 3 } normal { granite 0.4 scale 2 } finish { F_Matt } } #end #end
  // brass tube up to the rock
  difference { cylinder { <0,5,0>, <0,15,0>, 4.6 } cylinder { <0,4,0>, <0,16,0>, 3.9 } texture { pigment { srgb <0.80,0.62,0.28> } finish { F_Steel } } }
  union {
    object { Strip_Board(24, 14) translate <12,8.6,-20> }
    // resistors in a row, ends bent into the board
    #declare Bands = array[7][3] { { B_Yellow, B_Violet, B_Red }, { B_Yellow, B_Violet, B_Red }, { B_Yellow, B_Violet, B_Red }, { B_Brown, B_Green, B_Red }, { B_Brown, B_Green, B_Red }, { B_Brown, B_Red, B_Red }, { B_Red, B_Red, B_Red } }
    #for (I, 0, 6)
      union {
        object { Resistor(Bands[I][0], Bands[I][1], Bands[I][2], B_Gold, 3) rotate y*90 }
        cylinder { <0,0,-6>, <0,-2.4,-6>, 0.28 } cylinder { <0,0,6>, <0,-2.4,6>, 0.28 } sphere { <0,0,-6>, 0.28 } sphere { <0,0,6>, 0.28 }
        texture { pigment { srgb 0.76 } finish { F_Brushed } }
        translate <20+I*7.6,12.4,-2>
      }
      Solder(<20+I*7.6,10.3,-8>, 1.0) Solder(<20+I*7.6,10.3,4>, 1.0)
      #declare C1 = array[7] { W_White, W_White, W_White, W_RedEn, W_RedEn, W_Gold, W_GreenEn }
      object { Wire(array[6] { <20+I*7.6,10.4,5>, <20+I*7.6,10.8,11>, <14+I*5.5,9.6,22+I*1.3>, <-6+I*1.4,9+I*0.5,24+I*2.4>, <-4+I*0.4,12,10+I*0.6>, <-1.6+I*0.5,7,0.6> }, 0.34) T_Enamel(C1[I]) }
      Solder(<20+I*7.6,10.3,6>, 0.8)
    #end
    // common rail in black, doubled back down the tube
    object { Wire(array[2] { <16,10.7,-13.5>, <70,10.7,-13.5> }, 0.45) texture { pigment { srgb 0.74 } finish { F_Steel } } }
    #for (I, 0, 6) Solder(<20+I*7.6,10.5,-13.2>, 1.0) object { Wire(array[3] { <20+I*7.6,10.4,-8>, <20.4+I*7.6,10.7,-11>, <20+I*7.6,10.5,-13.2> }, 0.28) texture { pigment { srgb 0.74 } finish { F_Brushed } } } #end
    object { Wire(array[6] { <16,10.7,-13.5>, <9,10.6,-16>, <2,9.2,-18>, <-4,10,-12>, <-3,13,-5>, <-0.5,7,-1> }, 0.5) texture { pigment { color W_Black } finish { F_Satin } } }
    // supply: socket at the side, slide switch, red and black leads
    object { RBox(<-86,9,-6>, <-66,20,6>, 0.6) texture { pigment { srgb 0.09 } finish { F_Plastic } } }
    union { box { <-66,11,-3>, <-61,11.6,-1> } box { <-66,15,1>, <-61,15.6,3> } texture { pigment { srgb 0.75 } finish { F_Steel } } }
    object { RBox(<-44,8.4,30>, <-22,14,40>, 0.4) texture { pigment { srgb <0.62,0.63,0.64> } finish { F_Steel } } }
    box { <-34,14,33>, <-28,19,37> pigment { srgb 0.08 } finish { F_Plastic } }
    #for (I, 0, 2) box { <-40+I*7,10,27>, <-39+I*7,10.5,30> texture { pigment { srgb 0.78 } finish { F_Steel } } } Solder(<-39.5+I*7,10.4,27>, 1.0) #end
    object { Wire(array[5] { <-61,11.4,-2>, <-52,9.4,2>, <-48,9,16>, <-42,9.4,23>, <-39.5,10.4,27> }, 0.75) texture { pigment { color W_Red } finish { F_Satin } } }
    object { Wire(array[5] { <-32.5,10.4,27>, <-30,9.2,18>, <-14,9,-26>, <6,9.2,-28>, <17,10.6,-8> }, 0.75) texture { pigment { color W_Red } finish { F_Satin } } }
    object { Wire(array[5] { <-61,15.2,2>, <-50,9.8,-14>, <-26,9,-38>, <4,9,-36>, <16,10.7,-13.5> }, 0.75) texture { pigment { color W_Black } finish { F_Satin } } }
    // tape over the runs
    #for (I, 0, 1) box { <-5,0,-11>, <5,0.2,11> texture { T_Tape } rotate y*(20-I*70) translate <(I ? -19 : 6), 10.6, (I ? -34 : 25)> } #end
  }
  rotate y*-12 translate <0,0,10>
}
object { Iron() rotate y*166 translate <92,0,-92> }
object { Spool(srgb <0.74,0.74,0.73>, 17, 16) translate <-124,0,70> }
object { Spool(W_RedEn, 14, 18) translate <124,0,74> }
object { Probe(W_Red) rotate y*130 translate <-76,0,-76> }
object { Tweezers(1.2) rotate y*62 translate <-120,0,-46> }
