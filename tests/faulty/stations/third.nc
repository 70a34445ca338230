%
(expect P110:38)
(expect P110:38)
(expect P301)
(expect P301)
(expect P402)
(the second station in a work offset that no setup has)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T3 M6
S6000 M3
G54
G0 X3. Y0.
G43 H3 Z10.
(the ring's pocket)
G0 Z1.
G3 X3. Y0. Z0. I-3. J0. F400.
G3 X3. Y0. Z-1. I-3. J0.
G3 X3. Y0. Z-2. I-3. J0.
G3 X3. Y0. Z-3. I-3. J0.
G3 X3. Y0. Z-4. I-3. J0.
G3 X3. Y0. Z-5. I-3. J0.
G3 X3. Y0. Z-6. I-3. J0.
G3 X3. Y0. I-3. J0.
G1 X6. F600.
G3 X6. Y0. I-6. J0.
G1 X9.
G3 X9. Y0. I-9. J0.
G1 X10.85
G3 X10.85 Y0. I-10.85 J0.
G1 X8.05 Y-3.
G3 X11.05 Y0. I0. J3.
G3 X11.05 Y0. I-11.05 J0.
G3 X8.05 Y3. I-3. J0.
G0 Z10.
G53 G0 Z0.
G56
G0 X3. Y0.
G0 Z10.
(the nut's pocket)
G0 Z1.
G3 X3. Y0. Z0. I-3. J0. F400.
G3 X3. Y0. Z-1. I-3. J0.
G3 X3. Y0. Z-2. I-3. J0.
G3 X3. Y0. Z-3. I-3. J0.
G3 X3. Y0. Z-4. I-3. J0.
G3 X3. Y0. I-3. J0.
G1 X6. F600.
G3 X6. Y0. I-6. J0.
G1 X7.85
G3 X7.85 Y0. I-7.85 J0.
G1 X5.05 Y-3.
G3 X8.05 Y0. I0. J3.
G3 X8.05 Y0. I-8.05 J0.
G3 X5.05 Y3. I-3. J0.
G0 Z10.
M5
G53 G0 Z0.
M30
%
