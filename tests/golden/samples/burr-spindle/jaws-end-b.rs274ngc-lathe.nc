%
(jaws-end-b)
(Burr spindle, turned from both ends: jaws-end-b, soft jaws bored for end B)
(jaws open to 17 mm, out to 70 mm, 40 mm long)
(zero: the jaws' front, on the axis)
(bored for end B: 20 mm less 0.025 mm on the diameter [allowed: 0 to 0.05)
(  mm less], 18 mm deep)
(the jaws clamp a plug that opens them to 17 mm, at the pressure that the)
(  part will be held with)
(the plug sits low in the jaws, all of it 20 mm or more behind their front)
(mark the jaws and their places: bore them again whenever they were taken)
(  off)
(the cut is interrupted between the jaws: a tough grade of insert, and)
(  begin slowly)
(the chuck is marked for 3500 rpm at most)
(17 mm of its depth touch the part, the rest of it is free)
(spindle never above 2500 rpm)
(T5 boring CCMT060204, nose 0.4 mm)
(T6 grooving 1.5 mm wide)
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

(T5 boring CCMT060204, nose 0.4 mm)
T5 M6
G43 H5
G97 S1283 M3
M8
(boring the jaws)
G0 Z2.
X16.
X17.858
G50 S2500
G96 S72 M3
G95 G1 Z0. F0.1
Z-17.9
X17.
X16. Z-17.4
G0 Z2.
X18.717
G1 Z0.
Z-17.9
X17.858
X16.858 Z-17.4
G0 Z2.
X19.975
G1 Z0.
G2 X19.575 Z-0.4 I0.3 K-0.4
G1 Z-17.9
X18.717
X17.717 Z-17.4
G0 X16.
Z2.
X19.975
G1 Z-0.4
Z-18.
X16.
G0 Z2.
M9
M5
G53 G0 X0.
G53 G0 Z0.

(T6 grooving 1.5 mm wide)
T6 M6
G43 H6
G97 S1103 M3
M8
(relieving the foot of the bore)
G0 Z2.
X16.
Z-17.35
X18.175
G50 S2500
G96 S63 M3
G95 G1 X20.775 F0.03
G4 P0.062
G0 X16.
Z-17.9
X18.175
G1 X20.775
G4 P0.062
G0 X16.
Z-17.25
X18.175
G1 X20.175
X20.975
Z-17.625
G0 X16.
Z-17.8
X18.175
G1 Z-18.
X19.175
X20.975
Z-17.525
G0 X16.
Z2.
M9
M5

G53 G0 X0.
G53 G0 Z0.
M30
%
