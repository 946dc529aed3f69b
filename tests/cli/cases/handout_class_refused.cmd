insideline handout "$CORPUS/ropewalk.musicxml" --class "trumpet, kazoo" --ly class || echo "exit $?"
insideline handout "$CORPUS/ropewalk.musicxml" --class "trumpet, trumpet" --ly class || echo "exit $?"
insideline handout "$CORPUS/ropewalk.musicxml" --class "trumpet" --for tuba --ly class || echo "exit $?"
insideline handout "$CORPUS/ropewalk.musicxml" --class "," --ly class || echo "exit $?"
echo mine >class
insideline handout "$CORPUS/ropewalk.musicxml" --class "trumpet" --ly class || echo "exit $?"
insideline handout "$CORPUS/ropewalk.musicxml" --class "trumpet" --ly no/such || echo "exit $?"
cp "$CORPUS/ropewalk.musicxml" solo.musicxml
mkdir sheets
ln solo.musicxml sheets/trumpet.ly
insideline handout solo.musicxml --class "trumpet" --ly sheets || echo "exit $?"
cat class
