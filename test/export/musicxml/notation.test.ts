import { describe, expect, test } from 'vitest';
import { musicXmlOf } from '../../../shared/export/musicxml/music-xml.ts';
import { exerciseOf } from '../exported-lessons.ts';
import { faultOf } from './schema.ts';

// Which element says what: MusicXML 4.0, musicxml.xsd and its documentation.

const HEAD =
  'lesson Lamps & <Quays>\nby Ada Fenn\nkey C\nchord C 0-0-0-3\nchord F 2-0-1-0 fingers 2-0-1-0\nchord Bb 3-2-1-1 fingers 3-2-1-1\n';

/** The document of one bar of C, F and Bb with these rows of a pattern or melody. */
function xmlOf(rows: string, bars = '| C |', header = ''): string {
  const text = `${HEAD}${header}melody q\n  ${rows.split('; ').join('\n  ')}\nprogression v\n  ${bars}\nexercise First & last\n  play v\n  with q`;
  const xml = musicXmlOf(exerciseOf(text));
  expect(faultOf(xml)).toBeUndefined();
  return xml.replace(/\n\s*/g, '');
}

/** The `note` elements that hold a piece of text. */
function notesWith(xml: string, piece: string): readonly string[] {
  return [...xml.matchAll(/<note[ >].*?<\/note>/g)].map(([note]) => note).filter((note) => note.includes(piece));
}

describe('what stands in the document', () => {
  test('titles, teacher and aim, with signs of markup as text', () => {
    const xml = xmlOf('count 1 2 3 4; pick 1 2 3 4');
    expect(xml).toContain('<work-title>Lamps &amp; &lt;Quays&gt;</work-title>');
    expect(xml).toContain('<movement-title>First &amp; last</movement-title>');
    expect(xml).toContain('<creator type="teacher">Ada Fenn</creator>');
  });

  test('the staff has the strings, the bottom line the highest-numbered one', () => {
    const xml = xmlOf('count 1 2 3 4; pick 1 2 3 4', '| C |', 'for tenor ukulele, high G, capo 2\n');
    expect(xml).toContain('<clef><sign>TAB</sign>');
    expect(xml).toContain(
      '<staff-lines>4</staff-lines><staff-tuning line="1"><tuning-step>G</tuning-step><tuning-octave>4</tuning-octave>',
    );
    expect(xml).toContain(
      '<staff-tuning line="4"><tuning-step>A</tuning-step><tuning-octave>4</tuning-octave></staff-tuning><capo>2</capo>',
    );
    // With the capo C sounds as D, and says C on the page; string 3 open sounds as D4.
    expect(xml).toContain('<root-step text="C">D</root-step>');
    expect(notesWith(xml, '<string>3</string>')[0]).toContain('<step>D</step><octave>4</octave>');
    expect(xml).toContain('<fifths>2</fifths>');
  });

  test('a hand: pluck, fingering, rest stroke and accent', () => {
    const xml = xmlOf('count 1 2 3 4; tune 1:5! . . .; fingers 3 . . .; pick . 4p^ . .');
    expect(notesWith(xml, '<fret>5</fret>')[0]).toContain('<fingering>3</fingering>');
    expect(notesWith(xml, '<fret>5</fret>')[0]).toContain('<accent/>');
    expect(notesWith(xml, '<pluck>p</pluck>')[0]).toContain('<other-technical>rest stroke</other-technical>');
  });

  test.each([
    [
      'a hammer-on in a column of its own',
      'count 1 2 3 4; tune 1:5 h7 . .',
      '<hammer-on type="start" number="1">H</hammer-on>',
      '<hammer-on type="stop" number="1">',
    ],
    [
      'a pull-off',
      'count 1 2 3 4; tune 1:7 p5 . .',
      '<pull-off type="start" number="1">P</pull-off>',
      '<pull-off type="stop" number="1">',
    ],
    ['a slide', 'count 1 2 3 4; tune 1:5 s9 . .', '<slide type="start" number="1"', '<slide type="stop" number="1"'],
  ])('%s joins two notes', (_name, rows, start, stop) => {
    const xml = xmlOf(rows);
    expect(notesWith(xml, start)).toHaveLength(1);
    expect(notesWith(xml, stop.replace(/>$/, ''))).toHaveLength(1);
    expect(notesWith(xml, '<grace')).toHaveLength(0);
  });

  test('a quick one is a grace note on the beat', () => {
    const xml = xmlOf('count 1 2 3 4; tune 1:5h7p5 . . .');
    const notes = notesWith(xml, '<string>1</string>');
    expect(notes.map((note) => /<fret>(\d+)/.exec(note)?.[1])).toEqual(['5', '7', '5']);
    expect(notes.map((note) => note.includes('<grace'))).toEqual([true, true, false]);
    expect(notes[0]).toContain('steal-time-following');
  });

  test.each([
    ['a bend', '1:5b', '<bend><bend-alter>1</bend-alter></bend>'],
    ['vibrato', '1:5v', '<wavy-line type="start"/><wavy-line type="stop"/>'],
    ['a natural harmonic sounds an octave up', '1:12*', '<harmonic><natural/><sounding-pitch/></harmonic>'],
    ['a trill with the next fret', '1:5t6', '<trill-mark trill-step="half"/>'],
    ['a trill with the one after', '1:5t7', '<trill-mark trill-step="whole"/>'],
  ])('%s', (_name, mark, expected) => {
    expect(xmlOf(`count 1 2 3 4; tune ${mark} . . .`)).toContain(expected);
  });

  test('pitches of harmonics are heard: fret 7 a twelfth above the open string', () => {
    // A4 and an octave and a fifth: E6. Source: the third partial of the harmonic series.
    expect(xmlOf('count 1 2 3 4; tune 1:7* . . .')).toContain('<step>E</step><octave>6</octave>');
    expect(xmlOf('count 1 2 3 4; tune 1:12* . . .')).toContain('<step>A</step><octave>5</octave>');
  });

  test('strokes: the signs of the standard for plucked strings, an arrow where they are spread', () => {
    const xml = xmlOf('count 1 2 3 4; strum D (U) Dx D~');
    const strokes = notesWith(xml, '-bow/>');
    expect(strokes).toHaveLength(4);
    expect(strokes[0]).toContain('<down-bow/>');
    expect(strokes[1]).toContain('<up-bow/>');
    expect(notesWith(xml, 'parentheses="yes"')).toHaveLength(4);
    expect(notesWith(xml, '<notehead>x</notehead>')).toHaveLength(4);
    // Down runs to string 1, which is on top: the arrow points up the page.
    expect(notesWith(xml, '<arpeggiate direction="up"/>')).toHaveLength(4);
  });

  test('knocks have no pitch and an instrument of their own', () => {
    const xml = xmlOf('count 1 2 3 4; strum D . D .; hit . thumb . body');
    const [thumb, body] = notesWith(xml, '<unpitched/>');
    expect(thumb).toContain('<instrument id="P1-thumb"/>');
    expect(body).toContain('<golpe/>');
    // General MIDI 1: side stick is key 37; the standard counts from 1.
    expect(xml).toContain(
      '<midi-instrument id="P1-thumb"><midi-channel>10</midi-channel><midi-unpitched>38</midi-unpitched>',
    );
  });

  test('a tune and what accompanies it are two voices, parted by a backup of the bar', () => {
    const xml = xmlOf('count 1 2 3 4; tune 1:5 1:7 1:5 1:3; pick 4 3 4 3');
    expect(notesWith(xml, '<voice>1</voice>')).toHaveLength(4);
    expect(notesWith(xml, '<voice>2</voice>')).toHaveLength(4);
    expect(xml).toContain('<backup><duration>4</duration></backup>');
  });

  test('triplets, with the value that they count', () => {
    const xml = xmlOf('count 1 la li 2 3 4; pick 1 2 3 4 3 2');
    const triplet = notesWith(
      xml,
      '<actual-notes>3</actual-notes><normal-notes>2</normal-notes><normal-type>eighth</normal-type>',
    );
    expect(triplet).toHaveLength(3);
    expect(triplet[0]).toContain('<tuplet type="start"');
    expect(triplet[2]).toContain('<tuplet type="stop"/>');
    expect(triplet[0]).toContain('<beam number="1">begin</beam>');
  });

  test('a pickup is no measure of its own number', () => {
    const xml = xmlOf('count 4 | 1 2 3 4; tune 1:0 | 1:2 1:3 1:5 1:7', 'count 4\n  | C | C |');
    expect(xml).toContain('<measure number="0" implicit="yes">');
    expect(xml).toContain('<measure number="1">');
  });

  test.each(['v', 'b', 't7'])('a note that is kept on in a column of its own is tied to the one before: %s', (mark) => {
    const xml = xmlOf(`count 1 2 3 4; tune 1:5 . ${mark} .`);
    expect(xml.match(/<tie type="\w+"\/>/g)).toEqual(['<tie type="start"/>', '<tie type="stop"/>']);
  });

  test('repeats, endings and how often', () => {
    const xml = xmlOf('count 1 2 3 4; pick 1 2 3 4', '|: C | 1st F :| 2nd Bb || C |: F :| x3');
    expect(xml).toContain('<ending number="1" type="start"/>');
    expect(xml).toContain('<ending number="1" type="stop"/><repeat direction="backward"/>');
    expect(xml).toContain('<ending number="2" type="discontinue"/>');
    expect(xml).toContain('<repeat direction="backward" times="3"/>');
  });

  test('tempo, swing and meter', () => {
    const xml = xmlOf('count 1 2 3 4 5 6; pick 1 2 3 4 3 2', '| C |', 'meter 6/8\ntempo 60 to 80 by 5\n');
    expect(xml).toContain('<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute>');
    // 60 dotted quarters are 90 quarters a minute.
    expect(xml).toContain('<sound tempo="90"/>');
    expect(xml).toContain('<words>to 80 by 5</words>');
    const swung = xmlOf('count 1 2 3 4; pick 1 2 3 4', '| C |', 'feel swing 3 to 2\n');
    expect(swung).toContain('<swing><first>3</first><second>2</second><swing-type>eighth</swing-type></swing>');
  });

  // Common practice, no source: where no sign says otherwise, note values keep their length over a change of meter.
  test('where the foot begins to beat another value, quarters stay as they are', () => {
    const xml = xmlOf('count 1 2 3 4; tune 1:0 1:2 1:3 1:5', '| C | 6/8 C |', 'tempo 60\n');
    expect(xml.match(/<sound tempo="[^"]*"/g)).toEqual(['<sound tempo="60"']);
  });

  test('words under the notes, and below the staff where nothing is struck', () => {
    const xml = xmlOf('count 1 2 3 4; pick 1 2 . .; words Lan- terns glow .');
    expect(xml).toContain('<lyric number="1"><syllabic>begin</syllabic><text>Lan</text></lyric>');
    expect(xml).toContain('<syllabic>end</syllabic><text>terns</text>');
    expect(xml).toContain('<words>glow</words></direction-type><offset>2</offset>');
    // Source: musicxml.xsd 4.0, text-element-data, and xml:lang of XML 1.0, 2.12.
    const said = xmlOf('count 1 2 3 4; pick 1 2 . .; words Lan- ternas . .', '| C |', 'language pt-BR\n');
    expect(said).toContain('<syllabic>begin</syllabic><text xml:lang="pt-BR">Lan</text>');
  });

  test('a diagram beside the chord, with barre and fingers', () => {
    const xml = xmlOf('count 1 2 3 4; pick 1 2 3 4', '| Bb | NC |');
    expect(xml).toContain('<root><root-step>B</root-step><root-alter>-1</root-alter></root><kind text="">major</kind>');
    expect(xml).toContain('<string>2</string><fret>1</fret><fingering>1</fingering><barre type="start"/>');
    expect(xml).toContain('<string>1</string><fret>1</fret><fingering>1</fingering><barre type="stop"/>');
    expect(xml).toContain('<kind text="N.C.">none</kind>');
  });

  test('the same lesson gives the same document', () => {
    expect(xmlOf('count 1 2 3 4; strum D U D U')).toBe(xmlOf('count 1 2 3 4; strum D U D U'));
  });
});
