(ring pocket reckoned by the control, arcs before and after their feeds)
(read as rs274ngc-mill)
(expect nothing)
#1=15.05 (radius of the pocket)
#2=4 (of the cutter)
#3=[#1-#2]
#4=-6
N1 G21 G17 G40 G49 G80 G90 G94 G61
N2 G53 G0 Z0
T3 M6
G54 S6000 M3
G0 X[#3/4] Y0
G43 H3 Z10
Z1
F400 G3 X[#3/4] Y0 I[0-#3/4] J0 Z[#4/3]
Z[#4*2/3] X[#3/4] I[0-#3/4]
Z#4 X[#3/4] I[0-#3/4]
X[#3/4] I[0-#3/4]
G1 X[#3*0.7] F600
G3 X[#3*0.7] I[0-#3*0.7]
G1 X#3
G3 X[#3*COS[180]] Y[#3*SIN[180]] I[0-#3]
X#3 Y0 I#3
G1 X[#3-2] Y0
G0 Z10
M5
G53 G0 Z0
M30
