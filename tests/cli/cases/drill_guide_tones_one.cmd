printf '| Dm7 | G7sus4 G7 | C | C5 | N.C. | Fm6 Bb7 | Ebmaj7 | %% |\n' >aims.changes
insideline drill --changes aims.changes --guide-tones one -o sheet.musicxml
