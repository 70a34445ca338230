%
(end-b-down)
(Drive hub, soft jaws for both ends: soft jaws end-b-down)
(blanks 100 x 40 x 40 mm wide x thick x high, aluminium 6061)
(cut on a spacer lower than the pocket: gap 8 mm)
(zero: middle of the width, mid gap, jaw top)
(pocket 22 mm deep, part stands 11 mm proud)
(7 levels, 3, 5, 7, 9, 11, 13, 22 mm below the jaw top)
(T3 8 mm rougher: end mill dia 8 mm, 3 flutes, at least 22 mm of flutes)
(T4 6 mm finisher: end mill dia 6 mm, 3 flutes, at least 22 mm of flutes)
(Proven on paper only: a qualified person checks it for this machine)
(Start with the tool clear above everything, check units, offsets, tools)
(Dry run well above the jaws, then single block, rapids turned down)
(Guards closed, eyes protected, spindle stopped before hands go in)
(Local codes and the machine builder's documents come first)
(work offset 1 is G54)
G21 G17 G40 G49 G80 G90 G94 G61
G54
G53 G0 Z0.

(T3 8 mm rougher: end mill dia 8 mm, 3 flutes)
T3 M6
S7958 M3
M8
(roughing, level 1 of 7)
G0 X3.6 Y0.
G43 H3 Z5.
Z0.5
G3 X3.6 Y0. Z-0.633 I-3.6 J0. F764
X3.6 Y0. Z-1.767 I-3.6 J0.
X3.6 Y0. Z-2.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X5.206
G3 X5.206 Y0. I-5.2062 J0. F1398
G1 X8.406 F764
G3 X8.406 Y0. I-8.4062 J0. F1505
G1 X11.606 F764
G3 X11.606 Y0. I-11.6062 J0. F1529
G1 X14.806 F764
G3 X14.806 Y0. I-14.8062 J0. F1532
(roughing, level 3 of 7)
G0 Z5.
X3.6
Z-2.4
G3 X3.6 Y0. Z-3.525 I-3.6 J0. F764
X3.6 Y0. Z-4.65 I-3.6 J0.
X3.6 Y0. Z-5.775 I-3.6 J0.
X3.6 Y0. Z-6.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X6.506
G3 X6.506 Y0. I-6.5062 J0. F1452
G1 X9.706 F764
G3 X9.706 Y0. I-9.7062 J0. F1528
(roughing, level 5 of 7)
G0 Z5.
X3.6
Z-6.4
G3 X3.6 Y0. Z-7.525 I-3.6 J0. F764
X3.6 Y0. Z-8.65 I-3.6 J0.
X3.6 Y0. Z-9.775 I-3.6 J0.
X3.6 Y0. Z-10.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X6.306
G3 X6.306 Y0. I-6.3062 J0. F1444
G1 X9.506 F764
G3 X9.506 Y0. I-9.5062 J0. F1520
(roughing, level 6 of 7)
G0 Z5.
X3.6
Z-10.4
G3 X3.6 Y0. Z-11.233 I-3.6 J0. F764
X3.6 Y0. Z-12.067 I-3.6 J0.
X3.6 Y0. Z-12.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X6.206
G3 X6.206 Y0. I-6.2062 J0. F1444
G1 X9.406 F764
G3 X9.406 Y0. I-9.4062 J0. F1520
(roughing, level 7 of 7)
G0 Z5.
X3.6
Z-12.4
G3 X3.6 Y0. Z-13.567 I-3.6 J0. F764
X3.6 Y0. Z-14.733 I-3.6 J0.
X3.6 Y0. Z-15.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X5.801
G3 X5.801 Y0. I-5.801 J0. F1421
G0 Z-15.4
G1 X3.6 F5000
G3 X3.6 Y0. Z-16.567 I-3.6 J0. F764
X3.6 Y0. Z-17.733 I-3.6 J0.
X3.6 Y0. Z-18.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X5.801
G3 X5.801 Y0. I-5.801 J0. F1421
G0 Z-18.4
G1 X3.6 F5000
G3 X3.6 Y0. Z-19.567 I-3.6 J0. F764
X3.6 Y0. Z-20.733 I-3.6 J0.
X3.6 Y0. Z-21.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X5.801
G3 X5.801 Y0. I-5.801 J0. F1421
G0 Z5.
M9
M5
G53 G0 Z0.

(T4 6 mm finisher: end mill dia 6 mm, 3 flutes)
T4 M6
S8000 M3
M8
(floor, level 1 of 7)
G0 X0. Y0.
G43 H4 Z5.
Z-2.4
G1 Z-3. F610
X11.006 F349
G3 X11.006 Y0. I-11.0062 J0. F957
G1 X13.406 F349
G3 X13.406 Y0. I-13.4062 J0. F957
G1 X15.806 F349
G3 X15.806 Y0. I-15.8062 J0. F957
(wall, level 1 of 7)
G0 Z-2.5
G1 X11.506 Y-3. F5000
Z-3. F610
X13.006 F416
G3 X16.006 Y0. I0.0001 J2.9999
X16.006 Y0. I-16.0062 J0. F366
X16.006 Y0. I-16.0062 J0. F1027
X13.006 Y3. I-2.9999 J0.0001 F416
G1 X11.506
(floor, level 2 of 7)
G0 Z5.
X0. Y0.
Z-2.5
G1 Z-5. F610
X10.806 F349
G3 X10.806 Y0. I-10.8062 J0. F957
(wall, level 2 of 7)
G0 Z-4.5
G1 X6.506 Y-3. F5000
Z-5. F610
X8.006 F416
G3 X11.006 Y0. I0.0001 J2.9999
X11.006 Y0. I-11.0062 J0. F363
X11.006 Y0. I-11.0062 J0. F958
X8.006 Y3. I-2.9999 J0.0001 F416
G1 X6.506
(floor, level 3 of 7)
X0. Y0. F5000
G0 Z-6.4
G1 Z-7. F610
X10.706 F349
G3 X10.706 Y0. I-10.7062 J0. F957
(wall, level 3 of 7)
G0 Z-6.5
G1 X6.406 Y-3. F5000
Z-7. F610
X7.906 F416
G3 X10.906 Y0. I0.0002 J2.9998
X10.906 Y0. I-10.9062 J0. F366
X10.906 Y0. I-10.9062 J0. F956
X7.906 Y3. I-2.9996 J0.0004 F416
G1 X6.406
(floor, level 4 of 7)
G0 Z-6.5
G1 X0. Y0. F5000
Z-9. F610
X10.606 F349
G3 X10.606 Y0. I-10.6062 J0. F957
(wall, level 4 of 7)
G0 Z-8.5
G1 X6.306 Y-3. F5000
Z-9. F610
X7.806 F416
G3 X10.806 Y0. I0.0001 J2.9999
X10.806 Y0. I-10.8062 J0. F363
X10.806 Y0. I-10.8062 J0. F954
X7.806 Y3. I-2.9996 J0.0004 F416
G1 X6.306
(floor, level 5 of 7)
X0. Y0. F5000
G0 Z-10.4
G1 Z-11. F610
X10.506 F349
G3 X10.506 Y0. I-10.5062 J0. F957
(wall, level 5 of 7)
G0 Z-10.5
G1 X6.206 Y-3. F5000
Z-11. F610
X7.706 F416
G3 X10.706 Y0. I0.0001 J2.9999
X10.706 Y0. I-10.7062 J0. F366
X10.706 Y0. I-10.7062 J0. F952
X7.706 Y3. I-2.9996 J0.0004 F416
G1 X6.206
(floor, level 6 of 7)
X0. Y0. F5000
G0 Z-12.4
G1 Z-13. F610
X8.006 F349
G3 X8.006 Y0. I-8.0062 J0. F957
G1 X10.406 F349
G3 X10.406 Y0. I-10.4062 J0. F957
(wall, level 6 of 7)
G0 Z-12.5
G1 X6.106 Y-3. F5000
Z-13. F610
X7.606 F416
G3 X10.606 Y0. I0.0001 J2.9999
X10.606 Y0. I-10.6062 J0. F366
X10.606 Y0. I-10.6062 J0. F950
X7.606 Y3. I-2.9996 J0.0004 F416
G1 X6.106
(floor, level 7 of 7)
G0 Z5.
X0. Y0.
Z-21.4
G1 Z-22. F610
X2.001 F349
G3 X2.001 Y0. I-2.001 J0. F957
G1 X4.401 F349
G3 X4.401 Y0. I-4.401 J0. F957
G1 X6.801 F349
G3 X6.801 Y0. I-6.801 J0. F957
(wall, level 7 of 7)
G0 Z-21.5
G1 X2.501 Y-3. F5000
Z-22. F610
X4.001 F416
G3 X7.001 Y0. I0. J3.
X7.001 Y0. I-7.001 J0. F366
X7.001 Y0. I-7.001 J0. F854
X4.001 Y3. I-3. J0. F416
G1 X2.501
G0 Z5.
M9
M5

G53 G0 Z0.
M30
%
