%
(read as rs274ngc-mill)
(expect R604:10)
(expect P301)
(expect P301)
(expect P402)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0
T3 M6 S6000 M3
M98 P1001 L6
M5
G53 G0 Z0
M30
%
