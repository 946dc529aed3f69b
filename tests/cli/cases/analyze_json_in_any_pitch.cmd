for pitch in --written --concert "--for horn"; do
  insideline analyze "$CORPUS/third-mooring.musicxml" $pitch --json - | cksum
done
