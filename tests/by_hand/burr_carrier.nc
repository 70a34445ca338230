%
(the burr carrier's pocket, drilled by cycles in steps and with returns to R)
(read as rs274ngc-mill)
(expect nothing)
G21 G17 G40 G49 G80 G90 G94 G98 G61
G54
G53 G0 Z0.
T2 M6
S2000 M3
G0 X-65. Y-18.
G43 H2 Z10.
(face the blanks)
G0 Z0.
G1 X65. F800.
G0 Y18.
G1 X-65.
G0 Z10.
M5
G53 G0 Z0.
T3 M6
S6000 M3
G0 X3. Y0.
G43 H3 Z10.
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
(the upper wall)
G1 X8.05 Y-3.
G3 X11.05 Y0. I0. J3.
G3 X11.05 Y0. I-11.05 J0.
G3 X8.05 Y3. I-3. J0.
(the seat)
G1 X3. Y0.
G3 X3. Y0. Z-4. I-3. J0. F400.
G3 X3. Y0. Z-5. I-3. J0.
G3 X3. Y0. Z-6. I-3. J0.
G3 X3. Y0. Z-7. I-3. J0.
G3 X3. Y0. I-3. J0.
G1 X5.85 F600.
G3 X5.85 Y0. I-5.85 J0.
(the lower wall)
G1 X4.05 Y-2.
G3 X6.05 Y0. I0. J2.
G3 X6.05 Y0. I-6.05 J0.
G3 X4.05 Y2. I-2. J0.
G0 Z10.
M5
G53 G0 Z0.
T7 M6
S9000 M3
G0 X8.55 Y0.
G43 H7 Z10.
G0 Z-6.5
(the groove)
G1 Z-7. F200.
G3 X8.55 Y0. Z-7.3 I-8.55 J0.
G3 X8.55 Y0. I-8.55 J0.
G1 X8. Z-6.9
G0 Z10.
M5
G53 G0 Z0.
T5 M6
S3000 M3
G0 X28. Y12.
G43 H5 Z10.
g91 g99 g82 x0 y0 z-3 r-9 p.2 f150
g80 g90 g98
M5
G53 G0 Z0.
T4 M6
S3000 M3
G0 X28. Y12.
G43 H4 Z10.
(the stop's hole)
g91 g98 g83 x0 y0 z-8.502 r-9 q2 l1 f150
g90 g80
M5
G53 G0 Z0.
T9 M6
S8000 M3
G0 X12. Y0.
G43 H9 Z10.
G0 Z-1.
(the edge)
G1 X14.25 F400.
G3 X14.25 Y0. I-14.25 J0.
G1 X12.
G0 Z10.
M5
G53 G0 Z0.
M30
%
