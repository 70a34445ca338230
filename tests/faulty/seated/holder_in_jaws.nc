%
(a slot 9 mm deep with a tool that stands out 4: its holder 1 mm in either jaw, 5 in the part)
(expect P801:12) (expect P804:12) (expect P804:12) (expect P804:12)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T5 M6
G54
S6000 M3
G0 X0. Y0.
G43 H5 Z10.
G0 Z5.
G1 Z-5. F100.
G0 Z10.
M5
G53 G0 Z0.
M30
%
