mkdir -p solos/ferry solos/harbour
cp "$CORPUS"/early-ferry.musicxml solos/ferry
cp "$CORPUS"/ropewalk.musicxml "solos/harbour/2026-03-01 rope & walk.musicxml"
insideline survey solos --html all.html --pages out/pages | head -n 3
grep -o 'href="out[^"]*"' all.html
head -c 15 out/pages/ferry/early-ferry.musicxml.html
