mkdir -p solos/mia elsewhere/deep
cp "$CORPUS/ropewalk.musicxml" solos/mia
cp "$CORPUS/early-ferry.musicxml" elsewhere/deep
cp "$CORPUS/slipway-waltz.musicxml" elsewhere
ln -s ../elsewhere/deep solos/ben
ln -s ../../elsewhere/slipway-waltz.musicxml solos/mia/waltz.musicxml
ln -s mia solos/again
insideline survey solos --db solos.db | head -n 5
insideline survey solos --db part.db --shard 2/2
insideline survey solos --db solos.db --through-links | head -n 2
