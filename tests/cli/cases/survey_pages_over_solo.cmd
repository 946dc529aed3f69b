mkdir -p solos
cp "$CORPUS"/early-ferry.musicxml solos
mkdir pages
ln -s ../solos/early-ferry.musicxml pages/early-ferry.musicxml.html
insideline survey solos --pages pages
