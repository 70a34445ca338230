%
(read as rs274ngc-mill)
(expect R604:10)
(expect R604:9)
(expect P301)
(expect P301)
(expect P402)
G21 G17 G40 G49 G80 G90 G94 G61
o100 call
o<ring> sub
G53 G0 Z0
M30
%
