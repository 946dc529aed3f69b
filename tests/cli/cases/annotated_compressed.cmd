insideline analyze "$CORPUS/ropewalk.musicxml" --annotated ropewalk.mxl >/dev/null
insideline analyze ropewalk.mxl --annotated - | head -n 3
