(ring pocket, from point to point by steps alone)
(read as rs274ngc-mill)
(expect nothing)
g21g17g40g49g80g94g61
g90g53g0z0
t3m6
g54 s6000 m3
g0 x3 y0
g43h3z10 m8
g91
g0z-9
g3x0z-1i-3j0f400
x0z-1i-3
x0z-1i-3
x0z-1i-3
x0z-1i-3
x0z-1i-3
x0z-1i-3
x0i-3
g1x3f600
g3x0i-6
g1x3
g3x0i-9
g1x1.85
g3x0i-10.85
g1x-2.8y-3
g3x3y3j3
x0i-11.05
x-3y3i-3
g0z16
m9
m5
g90g53g0z0
m2
