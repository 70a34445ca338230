(the ring pocket in inches, blocks and remarks mixed)
(read as rs274ngc-mill)
(expect nothing)
G20 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0
T3 (8 mm) M6
G54 S6000 M3
G0 X.25 Y0 (near the middle)
G43 H3 Z.5
Z.04
G1 Z0 F15
G3 X.25 Y0 Z-.0787 I-.25 F15
X.25 Z-.1575 I-.25
X.25 Z-.2362 I-.25
X.25 I-.25
/G4 P.5
G1 X.34
G3 X.34 I-.34
G1 X.435
G3 X.435 I-.435
G1 X.3
G0 Z1 M5
G53 G0 Z0
M2
