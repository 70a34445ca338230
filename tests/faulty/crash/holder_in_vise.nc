%
(expect P804:27 -5) (expect P804:34) (expect P804:34)
(T10: the wide step of its holder comes down to Z3 over the vise's own jaws)
G21 G17 G40 G49 G80 G90 G94 G61
G53 G0 Z0.
T10 M6
G54
S6000 M3
G0 X3. Y0.
G43 H10 Z10.
M8
G0 Z1.
G3 X3. Y0. Z0. I-3. J0. F400.
G3 X3. Y0. Z-1. I-3. J0.
G3 X3. Y0. Z-2. I-3. J0.
G3 X3. Y0. Z-3. I-3. J0.
G3 X3. Y0. I-3. J0.
G1 X6. F600.
G3 X6. Y0. I-6. J0.
G1 X9.
G3 X9. Y0. I-9. J0.
G1 X10.85
G3 X10.85 Y0. I-10.85 J0.
G1 X3. F600.
G3 X3. Y0. Z-4. I-3. J0. F400.
G3 X3. Y0. Z-5. I-3. J0.
G3 X3. Y0. Z-6. I-3. J0.
G3 X3. Y0. I-3. J0.
G1 X6. F600.
G3 X6. Y0. I-6. J0.
G1 X9.
G3 X9. Y0. I-9. J0.
G1 X10.85
G3 X10.85 Y0. I-10.85 J0.
(the wall)
G1 X8.05 Y-3.
G3 X11.05 Y0. I0. J3.
G3 X11.05 Y0. I-11.05 J0.
G3 X8.05 Y3. I-3. J0.
G0 Z10.
M9
M5
G53 G0 Z0.
M30
%
