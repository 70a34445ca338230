%
(milled round 0.4 mm above the jaws, not 1 mm)
(expect P712:12 0.4) (expect P712:12 0.4)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T3 M6
G54
S6000 M3
G0 X50. Y0.
G43 H3 Z10.
G0 Z0.4
G1 X18.5 F600.
G3 X18.5 Y0. I-18.5 J0.
G1 X50.
G0 Z10.
M5
G53 G0 Z0.
M30
%
