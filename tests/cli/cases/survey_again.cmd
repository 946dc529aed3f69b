mkdir solos
cp "$CORPUS"/early-ferry.musicxml "$CORPUS"/ropewalk.musicxml solos
insideline survey solos --db solos.db | head -n 1
cp "$CORPUS"/slipway-waltz.musicxml solos
cp "$CORPUS"/ropewalk.musicxml solos/same.musicxml
insideline survey solos --db solos.db | head -n 5
insideline survey solos --db solos.db --again | head -n 1
