%
(on the way round at Z1 over a bolt up to Z3 and the vise up to Z2)
(expect P705:12 -2) (expect P707:13 -1)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T3 M6
G54
S6000 M3
G0 X26. Y0.
G43 H3 Z10.
G0 Z1.
G1 X30. Y20. F600.
G1 X26. Y42.
G0 Z10.
M5
G53 G0 Z0.
M30
%
