insideline chord Cm7 "Cmaj7xyz"
