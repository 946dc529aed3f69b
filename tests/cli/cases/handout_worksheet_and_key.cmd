insideline handout "$DATA/two_bars.musicxml" --bars 1-2 --worksheet --paper letter --ly sheet.ly
insideline handout "$DATA/two_bars.musicxml" --bars 1-2 --key --no-chords --ly key.ly
grep -h 'define sheet\|paper-size\|sheetname = ' sheet.ly key.ly
sed -n '/section "Answers"/,$p' key.ly
