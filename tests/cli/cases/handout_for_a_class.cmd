insideline handout "$CORPUS/ropewalk.musicxml" --class "trumpet, Alto Sax, trombone, double-bass" --ly class
grep -h -e ' described' -e '^  .clef' class/*.ly
insideline handout "$CORPUS/ropewalk.musicxml" --class "alto-sax, viola" --key --ly class
