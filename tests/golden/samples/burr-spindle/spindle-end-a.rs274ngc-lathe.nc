%
(spindle-end-a)
(Burr spindle, turned from both ends: spindle-end-a, end A free)
(stock dia 32 mm, 1 mm in front of Z 0)
(zero: the finished face of the free end, on the axis)
(the chuck holds 18 mm, the work stands 64 mm out of its jaws, 6.7 times)
(  its least diameter)
(caution: more than 3 times its diameter without a tailstock: the work)
(  bends and may come out)
(M12x1.75 6g: its crests 11.833 mm across, 1.045 mm deep on radius for an)
(  insert of its own profile, helix 2.9 degrees, try it with a gauge, or)
(  over three wires of 1.01 mm: 12.195 mm to 12.345 mm)
(spindle never above 2500 rpm)
(T1 rougher: turning CNMG120408, nose 0.8 mm)
(T2 finisher: turning DCMT11T304, nose 0.4 mm)
(T3 grooving 2 mm wide)
(T4 threading)
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
X28.605
G1 Z1.
Z-43.428
G3 X30.4 Z-45.3 I-1.5046 K-1.8725
G1 Z-49.6
X31.4 Z-49.1
G0 Z3.
X25.21
G1 Z1.
Z-42.9
X25.6
G3 X28.62 Z-43.435 I0.0004 K-2.3973
G1 X28.605 Z-43.428
X29.605 Z-42.928
G0 Z3.
X21.814
G1 Z1.
Z-40.189
X23.847 Z-42.9
X25.21
X26.21 Z-42.4
G0 Z3.
X18.419
G1 Z1.
Z-35.662
X23.847 Z-42.9
X21.814 Z-40.189
X22.814 Z-39.689
G0 Z3.
X15.024
G1 Z1.
Z-18.9
X16.191
G3 X17.464 Z-19.164 I0. K-0.8993
G1 X17.864 Z-19.364
G3 X18.391 Z-20. I-0.6358 K-0.636
G1 Z-35.625
X18.419 Z-35.662
X19.419 Z-35.162
G0 Z3.
X11.629
G1 Z1.
Z-1.125
X11.706 Z-1.164
G3 X12.234 Z-1.8 I-0.6353 K-0.6365
G1 Z-13.8
X12.231 Z-13.847
X11.701 Z-18.9
X15.024
X16.024 Z-18.4
G0 Z3.
X8.234
G1 Z1.
Z0.1
X8.433
G3 X9.706 Z-0.164 I0.0007 K-0.8976
G1 X11.629 Z-1.125
X12.629 Z-0.625
G0 X36.
Z3.
M9
M5
G53 G0 X0.
G53 G0 Z0.

(T2 finisher: turning DCMT11T304, nose 0.4 mm)
T2 M6
G43 H2
G97 S2165 M3
M8
(roughing deeper)
G0 Z3.
X36.
Z-13.426
X13.232
G50 S2500
G96 S90 M3
G95 G1 X12.232 F0.1
X12.233 Z-13.4
G3 X12.1 Z-13.65 I-0.4998 K-0.0009
G1 X11.523 Z-14.15
Z-18.9
X12.501
X13.501 Z-18.4
G0 Z-14.15
X12.523
G1 X11.523
X12.1 Z-13.65
X9.9 Z-15.555
Z-18.9
X11.523
X12.523 Z-18.4
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
X6.205
G1 Z1.58
X9.599 Z-0.117
X11.599 Z-1.117
G3 X11.833 Z-1.4 I-0.2811 K-0.2819
G1 Z-13.4
G3 X11.726 Z-13.6 I-0.3946 K-0.0016
G1 X9.5 Z-15.528
Z-19.
X16.791
G3 X17.357 Z-19.117 I-0.0001 K-0.401
G1 X17.757 Z-19.317
G3 X17.991 Z-19.6 I-0.284 K-0.2831
G1 Z-35.315
X23.754 Z-43.
X26.2
G3 X30. Z-44.9 I0. K-1.9
G1 Z-50.
X36.
G0 Z3.
M9
M5
G53 G0 X0.
G53 G0 Z0.

(T3 grooving 2 mm wide)
T3 M6
G43 H3
G97 S1564 M3
M8
(grooving)
G0 Z-15.676
X36.
X12.819
G50 S2500
G96 S63 M3
G95 G1 X10.529 F0.04
G4 P0.032
G0 X36.
Z-16.321
X12.819
G1 X9.7
G4 P0.029
G0 X36.
Z-17.611
X12.819
G1 X9.7
G4 P0.029
G0 X36.
Z-18.9
X12.819
G1 X9.7
G4 P0.029
G0 X36.
Z-14.941
X12.819
G1 X11.716
X9.716 Z-15.941
G3 X9.5 Z-15.997 I-0.1381 K0.1342
G1 Z-17.499
G0 X36.
Z-18.8
X12.819
G1 Z-19.
X11.819
X9.5
Z-17.399
G0 X36.
M9
M5
G53 G0 X0.
G53 G0 Z0.

(T4 threading)
T4 M6
G43 H4
G97 S1453 M3
M8
(thread M12x1.75 6g)
G0 Z5.632
X36.
X11.095
G33 Z-15.252 K1.75
G0 X36.
Z5.546
X10.789
G33 Z-15.338 K1.75
G0 X36.
Z5.479
X10.554
G33 Z-15.405 K1.75
G0 X36.
Z5.423
X10.356
G33 Z-15.461 K1.75
G0 X36.
Z5.374
X10.182
G33 Z-15.51 K1.75
G0 X36.
Z5.329
X10.024
G33 Z-15.555 K1.75
G0 X36.
Z5.288
X9.879
G33 Z-15.596 K1.75
G0 X36.
Z5.25
X9.744
G33 Z-15.634 K1.75
G0 X36.
Z5.25
X9.744
G33 Z-15.634 K1.75
G0 X36.
Z5.25
M9
M5

G53 G0 X0.
G53 G0 Z0.
M30
%
