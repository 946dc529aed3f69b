cp "$DATA/no_chords.musicxml" solo.musicxml
printf '| Dm7 | G7 | Cmaj7 | %% |\n' > solo.changes
insideline analyze solo.musicxml | head -n 3
insideline handout solo.musicxml -o solo.changes
