insideline analyze "$DATA/two_bars.musicxml" --html solo.html | head -n 1
head -n 1 solo.html
grep -c 'class="note' solo.html
