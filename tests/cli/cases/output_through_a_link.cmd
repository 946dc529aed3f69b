echo old > real.csv
ln -s real.csv link.csv
insideline analyze "$DATA/two_bars.musicxml" --csv link.csv >/dev/null
head -c 4 real.csv
readlink link.csv
