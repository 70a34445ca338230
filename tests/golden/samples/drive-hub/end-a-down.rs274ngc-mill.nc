%
(end-a-down)
(Drive hub, soft jaws for both ends: soft jaws end-a-down)
(blanks 100 x 40 x 40 mm wide x thick x high, aluminium 6061)
(cut on a spacer lower than the pocket: gap 8 mm)
(zero: middle of the width, mid gap, jaw top)
(pocket 11 mm deep, part stands 22 mm proud)
(2 levels, 3, 11 mm below the jaw top)
(T3 8 mm rougher: end mill dia 8 mm, 3 flutes, at least 11 mm of flutes)
(T4 6 mm finisher: end mill dia 6 mm, 3 flutes, at least 11 mm of flutes)
(Proven on paper only: a qualified person checks it for this machine)
(Start with the tool clear above everything, check units, offsets, tools)
(Dry run well above the jaws, then single block, rapids turned down)
(Guards closed, eyes protected, spindle stopped before hands go in)
(Local codes and the machine builder's documents come first)
(work offset 2 is G55)
G21 G17 G40 G49 G80 G90 G94 G61
G55
G53 G0 Z0.

(T3 8 mm rougher: end mill dia 8 mm, 3 flutes)
T3 M6
S7958 M3
M8
(roughing, level 1 of 2)
G0 X3.6 Y0.
G43 H3 Z5.
Z0.5
G3 X3.6 Y0. Z-0.633 I-3.6 J0. F764
X3.6 Y0. Z-1.767 I-3.6 J0.
X3.6 Y0. Z-2.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X-5.22
G3 X-5.22 Y0. I5.22 J0. F1398
G1 X-8.42 F764
G3 X-8.42 Y0. I8.42 J0. F1505
G1 X-11.62 F764
G3 X-11.62 Y0. I11.62 J0. F1529
G1 X-14.82 F764
G3 X-14.82 Y0. I14.82 J0. F1532
(roughing, level 2 of 2)
G0 Z5.
X3.6
Z-2.4
G3 X3.6 Y0. Z-3.525 I-3.6 J0. F764
X3.6 Y0. Z-4.65 I-3.6 J0.
X3.6 Y0. Z-5.775 I-3.6 J0.
X3.6 Y0. Z-6.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X-4.62
G3 X-4.62 Y0. I4.62 J0. F1360
G1 X-7.82 F764
G3 X-7.82 Y0. I7.82 J0. F1490
G0 Z-6.4
G1 X3.6 F5000
G3 X3.6 Y0. Z-7.525 I-3.6 J0. F764
X3.6 Y0. Z-8.65 I-3.6 J0.
X3.6 Y0. Z-9.775 I-3.6 J0.
X3.6 Y0. Z-10.9 I-3.6 J0.
X3.6 Y0. I-3.6 J0.
G1 X-4.62
G3 X-4.62 Y0. I4.62 J0. F1360
G1 X-7.82 F764
G3 X-7.82 Y0. I7.82 J0. F1490
G0 Z5.
M9
M5
G53 G0 Z0.

(T4 6 mm finisher: end mill dia 6 mm, 3 flutes)
T4 M6
S8000 M3
M8
(floor, level 1 of 2)
G0 X0. Y0.
G43 H4 Z5.
Z-2.4
G1 Z-3. F610
X-11.02 F349
G3 X-11.02 Y0. I11.02 J0. F957
G1 X-13.42 F349
G3 X-13.42 Y0. I13.42 J0. F957
G1 X-15.82 F349
G3 X-15.82 Y0. I15.82 J0. F957
(wall, level 1 of 2)
G0 Z-2.5
G1 X-11.52 Y3. F5000
Z-3. F610
X-13.02 F1219
G3 X-16.02 Y0. I0. J-3.
X-16.02 Y0. I16.02 J0. F1027
X-16.02 Y0. I16.02 J0.
X-13.02 Y-3. I3. J0. F1219
G1 X-11.52
(floor, level 2 of 2)
G0 Z5.
X0. Y0.
Z-10.4
G1 Z-11. F610
X-1.62 F349
G3 X-1.62 Y0. I1.62 J0. F957
G1 X-4.02 F349
G3 X-4.02 Y0. I4.02 J0. F957
G1 X-6.42 F349
G3 X-6.42 Y0. I6.42 J0. F957
G1 X-8.82 F349
G3 X-8.82 Y0. I8.82 J0. F957
(wall, level 2 of 2)
G0 Z-10.5
G1 X-4.52 Y3. F5000
Z-11. F610
X-6.02 F1219
G3 X-9.02 Y0. I0. J-3.
X-9.02 Y0. I9.02 J0. F915
X-9.02 Y0. I9.02 J0.
X-6.02 Y-3. I3. J0. F1219
G1 X-4.52
G0 Z5.
M9
M5

G53 G0 Z0.
M30
%
