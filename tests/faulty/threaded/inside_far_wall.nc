%
(the inside thread is cut on the far side of the bore)
(expect T405:49)
(expect T203:57)
(expect T501:50)
(expect T501:51)
(expect T501:54)
(expect T501:55)
(expect T501:58)
(expect T501:59)
(expect T602:49)
(expect T602:53)
(expect T602:57)
G21 G18 G40 G49 G90 G95 G97 G61
G53 G0 X0.
G53 G0 Z0.
(T4 threading, the pipe thread)
T4 M6
G43 H4
G54
G97 S700 M3
G0 Z6.
X42.
G0 X18.867
G33 X20.242 Z-16. K1.8143
G0 X42.
Z6.
G0 X18.067
G33 X19.442 Z-16. K1.8143
G0 X42.
Z6.
G0 X17.744
G33 X19.119 Z-16. K1.8143
G0 X42.
Z6.
G0 X120.
G0 Z60.
M5
G53 G0 X0.
G53 G0 Z0.
(T7 inside threading)
T7 M6
G43 H7
G54
G97 S900 M3
G0 Z8. X-9.2
G0 Z6.
X-11.274
G33 Z-13. K1.75
G0 X-9.2
G0 Z6.
X-11.774
G33 Z-13. K1.75
G0 X-9.2
G0 Z6.
X-12.1
G33 Z-13. K1.75
G0 X-9.2
G0 Z60.
M5
G53 G0 X0.
G53 G0 Z0.
M30
%
