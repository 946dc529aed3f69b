printf 'form: A A B A\n[A] | Dm7 | G7 | Cmaj7 | %% |\n[B] | Gm7 | C7 | Fmaj7 | %% |\n' >form.changes
insideline drill --changes form.changes -o sheet.musicxml >/dev/null
insideline drill --changes form.changes -o sheet.ly >/dev/null
grep -e rehearsal -e light-light sheet.musicxml
grep -o '.bar "||" .mark .markup .letter "."' sheet.ly
insideline analyze sheet.musicxml --section "second A" --bars | head -n 8
