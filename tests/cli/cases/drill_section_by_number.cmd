printf 'form: A A A A A B\n[A] | Dm7 | G7 |\n[B] | Gm7 | C7 |\n' >form.changes
for section in A 'fifth A' 'A 2' 'section B' 'last a' 'sixth A'; do
  insideline drill --changes form.changes --section "$section" -o sheet.musicxml | head -n 1 || true
done
