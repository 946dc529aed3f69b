insideline handout "$DATA/two_bars.musicxml" --class trumpet --ly - || echo "ended with status $?"
insideline handout "$DATA/two_bars.musicxml" --class trumpet --ly - -o - || echo "ended with status $?"
insideline handout "$DATA/two_bars.musicxml" --class trumpet -o -
