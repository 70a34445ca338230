%
(a slot 3 mm deep with flutes of 2, and a thicker shank above them)
(expect P803:12 1)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T6 M6
G54
S6000 M3
G0 X-26. Y0.
G43 H6 Z10.
G0 Z1.
G1 X26. F600.
G0 Z10.
M5
G53 G0 Z0.
M30
%
