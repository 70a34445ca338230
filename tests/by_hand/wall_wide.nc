(ring pocket by steps, whose last ring is 0.1 too large)
(read as rs274ngc-mill)
(expect P201:19)
g21g17g40g49g80g94g61
g90g53g0z0
t3m6
g54 s6000 m3
g0 x3 y0
g43h3z10 m8
g91
g0z-9
g3x0z-3i-3j0f400
x0z-2i-3
x0z-2i-3
x0i-3
g1x3f600
g3x0i-6
g1x5.15
g3x0i-11.15
g1x-3
g0z16
m9
m5
g90g53g0z0
m2
