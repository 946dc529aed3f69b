sed "0,/<kind/s|<kind[^/]*</kind>|<kind text=\"LONG\">other</kind>|" "$DATA/two_bars.musicxml" | awk -v long=x '{
  while (length(long) < 1000000) long = long long
  sub(/LONG/, long)
  print
}' >solo.musicxml
insideline analyze solo.musicxml
