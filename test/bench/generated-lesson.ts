/**
 * A lesson of about so many lines for measuring: a header, chords, and weeks of a progression, patterns, a melody and
 * exercises, each week with names of its own. The same number gives the same text.
 */
export function generatedLesson(lines: number): string {
  const parts = [HEADER];
  let count = HEADER.split('\n').length;
  for (let week = 1; count < lines; week++) {
    const part = weekText(week);
    parts.push(part);
    count += part.split('\n').length;
  }
  return parts.join('\n');
}

const HEADER = `lesson  Lanterns without end
for     tenor ukulele, high G
also    baritone ukulele, same shapes, called bari
key     E minor
meter   4/4
tempo   60 to 92 by 4
level   3

> Warm up for two minutes before you stretch. If it hurts, stop.

chord  Em      0-4-3-2  fingers 0-3-2-1
chord  C       0-0-0-3
chord  G       0-2-3-2
chord  D       2-2-2-0
chord  D(add9) 7-6-0-0
chord  C6      5-7-0-0
`;

const CHORDS = ['Em', 'C', 'G', 'D', 'D(add9)', 'C6'];

function weekText(week: number): string {
  const chord = (step: number): string => CHORDS[(week + step) % CHORDS.length] ?? 'Em';
  return `part  Week ${week}

> This week keep @${chord(0)} and @roll-${week} even; count aloud.

progression  verse-${week}
  |: ${chord(0)} | ${chord(1)} | ${chord(2)} | 1st ${chord(3)} / / ${chord(4)} :| 2nd ${chord(3)} ||
  |  ${chord(0)} | ${chord(1)} / / ${chord(2)} | ${chord(3)} | ${chord(0)} |
  words  Lan-terns go down | to the wa-ter | one by | one ||

pattern  roll-${week}
  count  1   &   2   &   3   &   4   &
  pick   4p  2i  3p  1m  4p  2i  3p  1m

pattern  knock-${week}
  count  1  &  2  &  3  &  4  &
  strum  D  .  .  U  D  .  U  .
  hit    .  .  .  .  .  .  .  thumb4

melody  climb-${week}
  count    1    &  2    &  3    &  4  &
  D(add9)  1:5  .  1:7  .  1:9  .  .  .
  C6       1:5  .  1:7  .  2:5  .  .  .

exercise  Roll the changes, week ${week}
  play     verse-${week}
  with     roll-${week}
  at bar 4 8  knock-${week}
  tempo    60 to 80
  minutes  5
  > Let every string ring on.

exercise  Chord, then tune, week ${week}
  over    D(add9), C6
  each    roll-${week}, climb-${week}
  repeat  2
`;
}
