mkdir bin tmp
cat >bin/lilypond <<'LILYPOND'
#!/bin/sh
others=$(env | grep -c -v '^\(PATH\|HOME\|TMPDIR\|XDG_CACHE_HOME\|LC_ALL\|PWD\|OLDPWD\|SHLVL\|_\)=')
echo "error: rights $(stat -c %a .), files $(echo *), memory $(ulimit -v), input $(wc -c), other variables $others"
exit 3
LILYPOND
chmod +x bin/lilypond
status=0
SECRET=1 TMPDIR=$PWD/tmp PATH="$PWD/bin:$PATH" insideline handout "$DATA/two_bars.musicxml" -o sheet.pdf || status=$?
exit "$status"
