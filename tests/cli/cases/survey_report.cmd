mkdir -p solos/ferry solos/harbour
cp "$CORPUS"/early-ferry.musicxml "$CORPUS"/ropewalk.musicxml "$CORPUS"/net-menders.musicxml "$CORPUS"/fog-signal.musicxml solos/ferry
cp "$CORPUS"/chandlery-stairs.musicxml "$CORPUS"/slipway-waltz.musicxml "$CORPUS"/tide-table.musicxml "$CORPUS"/third-mooring.musicxml "$CORPUS"/fish-dock-blues.musicxml solos/harbour
insideline survey solos --db solos.db >first
insideline survey --report --by folder --db solos.db --html page.html --csv table.csv
head -c 15 page.html
head -n 3 table.csv | cut -d , -f 1-9
