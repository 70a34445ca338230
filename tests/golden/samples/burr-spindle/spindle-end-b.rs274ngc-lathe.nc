%
(spindle-end-b)
(Burr spindle, turned from both ends: spindle-end-b, end B free)
(stock dia 32 mm, 1 mm in front of Z 0)
(zero: the finished face of the free end, on the axis)
(the chuck holds 30 mm, the work stands 53 mm out of its jaws, 5.6 times)
(  its least diameter)
(caution: more than 3 times its diameter without a tailstock: the work)
(  bends and may come out)
(spindle never above 2500 rpm)
(T1 rougher: turning CNMG120408, nose 0.8 mm)
(T2 finisher: turning DCMT11T304, nose 0.4 mm)
(T3 grooving 2 mm wide)
(Proven on paper only: a qualified person checks it for this machine)
(Start with the tool clear of chuck and work, check units, offsets, tools)
(Chuck key out first, check the jaws' screws, grip and opening)
(No faster than chuck, jaws, balance allow, the clamp is told first)
(Tailstock or steady where more than 3 times the diameter stands out)
(Dry run well off the chuck, then single block, rapids turned down)
(Guards closed, eyes protected, spindle stopped before hands go in)
(Local codes and the machine builder's documents come first)
(work offset 1 is G54)
(X words are diameters)
G21 G18 G40 G49 G90 G95 G97 G61
G54
G53 G0 X0.
G53 G0 Z0.

(T1 rougher: turning CNMG120408, nose 0.8 mm)
T1 M6
G43 H1
G97 S796 M3
M8
(facing)
G0 Z3.
X36.
Z0.1
G50 S2500
G96 S90 M3
G95 G1 X11.459 F0.2
G97 S2500 M3
X-1.8
Z0.6
G50 S2500
G96 S90 M3
G0 X36.
Z3.
(roughing)
X28.88
G1 Z1.
Z-20.167
X29.873 Z-20.664
G3 X30.4 Z-21.3 I-0.6358 K-0.636
G1 Z-26.3
X30.398 Z-26.347
X29.981 Z-30.32
G3 X30.4 Z-31.3 I-2.1841 K-0.9793
G1 Z-35.9
X32.
X33. Z-35.4
G0 Z3.
X25.76
G1 Z1.
Z-19.9
X27.6
G3 X28.873 Z-20.164 I0. K-0.8993
G1 X28.88 Z-20.167
X29.88 Z-19.667
G0 Z3.
X22.64
G1 Z1.
Z-19.9
X25.76
X26.76 Z-19.4
G0 Z3.
X19.52
G1 Z1.
Z-0.584
G3 X20.4 Z-1.8 I-1.4614 K-1.2164
G1 Z-19.9
X22.64
X23.64 Z-19.4
G0 Z3.
X16.4
G1 Z1.
Z0.1
X16.6
G3 X19.546 Z-0.6 I0.0001 K-1.8996
G1 X19.52 Z-0.584
X20.52 Z-0.084
G0 X36.
Z3.
M9
M5
G53 G0 X0.
G53 G0 Z0.

(T2 finisher: turning DCMT11T304, nose 0.4 mm)
T2 M6
G43 H2
G97 S912 M3
M8
(roughing deeper)
G0 Z3.
X36.
Z-25.926
X31.399
G50 S2500
G96 S90 M3
G95 G1 X30.399 F0.1
X30.4 Z-25.9
G3 X30.266 Z-26.15 I-0.4999 K0.
G1 X28.728 Z-27.482
Z-29.274
G3 X30.078 Z-30.114 I-1.1587 K-1.6223
G1 X30.051 Z-30.083
X31.051 Z-29.583
G0 Z-27.482
X29.728
G1 X28.728
X27.059 Z-28.927
G3 X28.773 Z-29.29 I-0.3327 K-1.9786
G1 X28.728 Z-29.274
X29.728 Z-28.774
G0 X36.
Z3.
(finishing the face)
Z0.
G1 X11.459
G97 S2500 M3
X-1.
Z0.5
G50 S2500
G96 S90 M3
G0 X36.
Z3.
(finishing)
X12.4
G1 Z0.
X17.2
G3 X20. Z-1.4 I0. K-1.4
G1 Z-20.
X28.2
G3 X28.766 Z-20.117 I-0.0001 K-0.401
G1 X29.766 Z-20.617
G3 X30. Z-20.9 I-0.284 K-0.2831
G1 Z-25.9
G3 X29.893 Z-26.1 I-0.4017 K0.0003
G1 X26.536 Z-29.007
G3 X30. Z-30.9 I-0.1687 K-1.8932
G1 Z-36.
X36.
G0 Z3.
M9
M5
G53 G0 X0.
G53 G0 Z0.

(T3 grooving 2 mm wide)
T3 M6
G43 H3
G97 S647 M3
M8
(grooving)
G0 Z-27.958
X36.
X30.985
G50 S2500
G96 S63 M3
G95 G1 X29.133 F0.04
G4 P0.087
G0 X36.
Z-28.384
X30.985
G1 X24.2
G4 P0.072
G0 X36.
Z-28.81
X30.985
G1 X24.2
G4 P0.072
G0 X36.
Z-29.236
X30.985
G1 X28.694
G4 P0.086
G0 X36.
Z-29.662
X30.985
G1 X29.541
G4 P0.088
G0 X36.
Z-27.441
X30.985
G1 X29.883
X28.883 Z-27.941
G3 X28.6 Z-28. I-0.1413 K0.1397
G1 X24.
Z-28.5
G0 X36.
Z-30.342
X30.985
G1 Z-30.542
X29.985
G2 X26.6 Z-29. I-1.6922 K-0.1575
G1 X24.
Z-28.4
G0 X36.
M9
M5

G53 G0 X0.
G53 G0 Z0.
M30
%
