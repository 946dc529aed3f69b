mkdir solos
echo "no score" >solos/broken.musicxml
cp "$DATA/two_bars.musicxml" solos
insideline survey solos --fail-on-error
