umask 027
insideline analyze "$DATA/two_bars.musicxml" --json solo.json --csv solo.csv | head -n 1
head -n 4 solo.json
head -n 1 solo.csv
stat -c %a solo.json
