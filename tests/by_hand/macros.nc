%
O0007
(read as iso6983-mill)
(expect R604:11) (expect R604:12) (expect R604:14) (expect R604:15)
(expect R606:11)
(expect R303:13) (expect R303:16) (expect R303:17) (expect R303:18)
(expect P301) (expect P301) (expect P402)
G71 G17 G40 G80 G90
G91 G28 Z0.
G90
G65 P9000 B2. R3.
G66 P9001
M97 P40
WHILE [#1 LT 3] DO1
IF [#1 GT 3] GOTO 10
G12 I10. F100
G16
G68 X0. Y0. R45.
M30
%
