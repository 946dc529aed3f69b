echo old > solo.csv
chmod 600 solo.csv
insideline analyze "$DATA/two_bars.musicxml" --csv solo.csv >/dev/null
head -n 1 solo.csv
stat -c %a solo.csv
