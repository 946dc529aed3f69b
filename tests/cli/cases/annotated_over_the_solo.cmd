cp "$DATA/two_bars.musicxml" solo.musicxml
insideline analyze solo.musicxml --annotated ./solo.musicxml
