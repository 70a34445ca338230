%
(straight down into the part with a cutter that cannot, 1 mm deep)
(expect P601:12)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T3 M6
G54
S6000 M3
G0 X0. Y0.
G43 H3 Z10.
G0 Z5.
G1 Z3. F100.
G0 Z10.
M5
G53 G0 Z0.
M30
%
