insideline analyze "$CORPUS/third-mooring.musicxml" --for alto-sax --csv solo.csv | sed -n '1,6p;/^Bars to look at/,/^bar/p'
sed -n 's/\r//;1,3p' solo.csv | cut -d, -f9-13
insideline analyze "$CORPUS/third-mooring.musicxml" --concert | sed -n '1,6p;/^Bars to look at/,/^bar/p'
insideline analyze "$CORPUS/chandlery-stairs.musicxml" --for tuba --bars | sed -n '2,16p'
insideline analyze "$CORPUS/third-mooring.musicxml" --written --explain n0 | tail -n 6
