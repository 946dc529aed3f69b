cp "$DATA/two_bars.musicxml" solo.musicxml
insideline handout solo.musicxml -o ./solo.musicxml
