cat > solo.musicxml <<'END'
<score-partwise version="4.0">
  <part-list><score-part id="P1"><part-name>Flute</part-name></score-part></part-list>
  <part id="P1">
    <measure number="1">
      <attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
      <note><pitch><step>E</step><octave>5</octave></pitch><duration>4</duration></note>
    </measure>
    <measure number="2">
      <attributes><time><beats>2</beats><beat-type>4</beat-type></time></attributes>
      <note><pitch><step>F</step><octave>5</octave></pitch><duration>2</duration></note>
    </measure>
    <measure number="3">
      <attributes><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
      <note><pitch><step>E</step><octave>5</octave></pitch><duration>4</duration></note>
    </measure>
  </part>
</score-partwise>
END
cat > tune.changes <<'END'
| C |
meter: 2/4
| G7 |
meter: 4/4
| C |
END
cat > square.changes <<'END'
| C | G7 | C |
END
insideline analyze solo.musicxml --changes tune.changes --csv -
insideline analyze solo.musicxml --changes square.changes
