import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import '../src/words/later';
import type { CheckCode } from '../src/engine/types';
import { AMOUNTS, type Amount, type Clause, type Difference, type Way } from '../src/state/patient/sentence_model';
import type { Remedy } from '../src/state/patient/remedy_model';
import { ENGLISH, language, words } from '../src/words';
import { english } from '../src/words/en';
import { engineWords } from '../src/words/engine';
import { caseRows } from '../src/words/es/engine_case';
import { caseTableRows } from '../src/words/es/engine_case_table';
import { givenRows } from '../src/words/es/engine_given';
import { lightRows } from '../src/words/es/engine_light';
import { photoRows } from '../src/words/es/engine_photo';
import { planRows } from '../src/words/es/engine_plan';
import { swatchRows } from '../src/words/es/engine_swatches';
import { engine, words as spanish } from '../src/words/es';

/** Every entry of a catalogue by its path; lists by their places. */
function entries(node: unknown, path = ''): [string, unknown][] {
  return typeof node === 'object' && node !== null ? Object.entries(node).flatMap(([key, value]) => entries(value, path ? `${path}.${key}` : key)) : [[path, node]];
}
const letters = (text: unknown): boolean => typeof text === 'string' && /\p{L}/u.test(text);
/** Words that are English and no Spanish. */
const ENGLISH_WORD = /\b(the|of|is|are|and|with|its|by|to|than|from|not|this|that|it|for|or|take|photo|tab|card|light|coats?|third|at|least|most|which|does|has|no one)\b/i;
const unquoted = (text: string) => text.replace(/“[^”]*”/g, '');

beforeAll(() => void (language.value = { tag: 'es', words: spanish, engine, decimal: ',' }));
afterAll(() => void (language.value = ENGLISH));

describe('the Spanish catalogue', () => {
  const [own, theirs] = [new Map(entries(spanish)), new Map(entries(english))];

  it('has the entries of the English one, functions with the same parameters', () => {
    expect([...own.keys()].sort()).toEqual([...theirs.keys()].sort());
    const parameters = (of: Map<string, unknown>) => [...of].filter(([, v]) => typeof v === 'function').map(([path, v]) => `${path}: ${(v as () => void).length}`).sort();
    expect(parameters(own)).toEqual(parameters(theirs));
  });

  it('has articles within sentences', () => {
    const { clock, errors, evenness, found, names, passes, plan, sheet, stage } = spanish;
    expect([sheet.how('Restauración 21'), sheet.nearestTo('Diente 11'), sheet.nearestTo('Muestra A2'), sheet.differenceOf('Restauración 21', 'Diente 11')]).toEqual([
      'Cómo acercar la restauración 21', 'al diente 11', 'a la muestra A2', 'la restauración 21 frente al diente 11',
    ]);
    expect([plan.fromTo('Restauración 21', 'Diente 11'), plan.fromTo(plan.typedFrom, plan.typedTo)]).toEqual(['Restauración 21 → objetivo: diente 11', 'Restauración (escrita) → objetivo: (escrito)']);
    expect(passes.takes('Restauración 21', 'Diente 11')).toBe('Toma la restauración 21 como la restauración cocida y el diente 11 como el objetivo.');
    expect([found.ask('Diente c'), found.against('Diente c', 'Diente d'), found.nameOne('Muestra 3')]).toEqual(['¿Es el diente c la restauración?', 'El diente c se compara con el diente d.', 'Nombre de la muestra 3']);
    expect([errors.outlineFailed('Diente'), errors.outlineFailed(names.tool('card'))]).toEqual(['No se encontró el contorno del diente.', 'No se encontró el contorno de la tarjeta.']);
    expect(evenness.maps.differing.shownFor(evenness.and(['Restauración 21', 'Diente 11']))).toContain('su objetivo la restauración 21 y el diente 11:');
    expect(stage.move('Muestra A2')).toContain('Mover la muestra A2');
    expect(clock.start).toBe('Labios retraídos');
  });

  it('has words wherever English has', () => {
    expect([...own].filter(([path, value]) => letters(theirs.get(path)) && !letters(value)).map(([path]) => path)).toEqual([]);
  });

  it('says nothing as English does, but for what is the same in both', () => {
    const same = [...own].filter(([path, value]) => letters(value) && value === theirs.get(path)).map(([path]) => path);
    expect(same.sort()).toEqual([
      'clock.sources.2',
      // Signs and measures.
      'evenness.unit', 'help.terms.shown.deltaE', 'numbers.a', 'numbers.b', 'numbers.c', 'numbers.h', 'numbers.l', 'numbers.raisedBy.estimated',
      'shape.card.a', 'shape.card.b', 'shape.card.l', 'sheet.deltaE', 'sheet.ladder.c', 'sheet.ladder.h', 'sheet.ladder.l', 'sheet.valueUnit',
      'keys.names.steps.Escape', 'keys.names.steps.Insert',
      // The same word, and the names of files.
      'modes.names.plan', 'names.zoneShort.cervical', 'names.zoneShort.incisal', 'numbers.factNames.flash', 'patient.no', 'plan.limits.no', 'plan.no', 'plan.title', 'practice.file',
      'stage.cervical', 'stage.incisal', 'tabs.row.cervical', 'tabs.row.incisal', 'trust.no',
      // By these the demo is known again after a change of language.
      'demo.name', 'swatches.demoNote',
    ].filter((path) => theirs.has(path)).sort());
  });

  it('has no English word in a text', () => {
    expect([...own].filter(([path, v]) => typeof v === 'string' && ENGLISH_WORD.test(v) && !/^(demo\.name|swatches\.demoNote|clock\.sources|keys\.intro)/.test(path)).map(([path]) => path)).toEqual([]);
  });

  it('has lists as people say them', () => {
    expect(words.plan.listed(['medio', 'incisal'])).toBe('medio e incisal');
    expect(words.plan.listed(['1,2', '1,5', '2,0'])).toBe('1,2; 1,5 y 2,0');
    expect(words.plan.zones(['Cervical', 'medio'])).toBe('Tercios cervical y medio');
    expect(words.found.what(true, 1, 2)).toBe('Se ha encontrado: tarjeta, 1 muestra y 2 dientes.');
    expect(words.errors.outlineFailed(words.names.tool('tooth'))).toBe('No se encontró el contorno del diente.');
    expect([0, 1, 2].map(words.plan.firings)).toEqual(['0 cocciones', '1 cocción', '2 cocciones']);
  });
});

describe('what the patient reads in Spanish', () => {
  const WAYS: Way[] = ['brighter', 'darker', 'stronger', 'paler', 'yellower', 'redder'];
  const PLACES: Clause['where'][] = [
    { thirds: ['cervical', 'middle', 'incisal'], mostly: false }, { thirds: ['incisal'], mostly: true }, { thirds: ['cervical', 'middle'], mostly: false }, { thirds: ['middle'], mostly: false },
  ];
  const clause = (amount: Amount, ways: Way[], where = PLACES[1]!): Clause => ({ amount, ways, where });
  const differs = (...clauses: Clause[]): Difference => ({ kind: 'differs', clauses, colourOnly: false });
  const differences: Difference[] = [
    { kind: 'unsure' }, { kind: 'alike' }, { kind: 'hardly' },
    ...AMOUNTS.flatMap((a) => [[], ...WAYS.map((w) => [w]), ['brighter', 'paler'] as Way[]].map((ways) => differs(clause(a, ways)))),
    ...PLACES.map((where) => differs(clause('clearly', ['darker'], where))),
    differs(clause('much', ['brighter']), clause('little', ['redder'], PLACES[3])), differs(clause('much', ['brighter'], PLACES[3]), clause('little', ['redder'])),
  ];
  const remedies: (Remedy | null)[] = [
    null, { kind: 'darkens' }, { kind: 'no-gain' },
    ...(['together', 'closer-maybe', 'closer'] as const).flatMap((kind) => [1, 2, 3, 4].flatMap((coats) => [false, true].map((price) => ({ kind, coats, price }) as Remedy))),
  ];
  const say = (difference: Difference, remedy: Remedy | null = null, beside: 'neighbour' | 'tooth' | 'sample' = 'neighbour', partly = false, thing: 'crown' | 'veneer' = 'crown') =>
    words.patient.said({ difference, remedy, beside, partly }, thing);

  it('is one sentence in good order, whatever comes together', () => {
    const all = differences.flatMap((d) => remedies.flatMap((r) => (['neighbour', 'tooth', 'sample'] as const).flatMap((b) => [false, true].flatMap((p) => (['crown', 'veneer'] as const).map((t) => say(d, r, b, p, t))))));
    const bad = all.filter((s) => !/^\p{Lu}[^.]*\.$/u.test(s) || /undefined|\bde el\b|\s\s|\s[,;.]|[,;]{2}|\d/.test(s) || ENGLISH_WORD.test(s));
    expect(bad).toEqual([]);
    expect(all.length).toBeGreaterThan(9000);
  });

  it('agrees', () => {
    expect(say(differs(clause('much', ['brighter']), clause('little', ['redder'], PLACES[3])))).toBe('Su corona es mucho más clara que el diente de al lado, sobre todo cerca del borde, y un poco más rojiza en el centro.');
    expect(say(differs(clause('clearly', [], PLACES[0])), null, 'sample', false, 'veneer')).toBe('Su carilla es claramente distinta de la muestra con la que se comparó, en toda la superficie.');
    expect(say(differs(clause('little', [], PLACES[2])))).toBe('Su corona es un poco distinta del diente de al lado, cerca de la encía y en el centro.');
    expect(say({ kind: 'hardly' }, { kind: 'closer', coats: 1, price: true }, 'tooth', true)).toBe(
      'Hasta donde la foto permite ver, su corona y el diente con el que se comparó apenas se diferencian; una capa fina de pintura podría acercar los colores, pero quedaría alguna diferencia, y su corona podría verse un poco más plana.',
    );
    expect(say({ kind: 'hardly' }, { kind: 'together', coats: 2, price: false })).toMatch(/dos capas finas de pintura podrían igualar los colores\.$/);
  });
});

describe('what the engine says, in Spanish', () => {
  const SENTENCES = /(?<=[.!?;])\s+/;
  const RUST = new URL('../../src/', import.meta.url);
  /** Holes alike, whatever stands in them. */
  const shape = (text: string) => text.replace(/\{[^{}"…]*\}/g, '{}').replace(/\s+/g, ' ').trim();

  it('has an entry for every sentence in the source of the engine', () => {
    const rows = [...lightRows, ...photoRows, ...planRows, ...swatchRows, ...caseRows, ...caseTableRows, ...givenRows].map(([text]) => text.replace('{gap}', ' '));
    const known = new Set(rows.flatMap((text) => [text, ...text.split(SENTENCES)]).map(shape));
    const files = readdirSync(RUST, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.rs') && !f.startsWith('bin'));
    const literals = files.flatMap((f) => {
      const code = readFileSync(new URL(f.replaceAll('\\', '/'), RUST), 'utf8').split('#[cfg(test)]')[0]!.replace(/^\s*\/\/.*$/gm, '');
      return [...code.matchAll(/"((?:[^"\\]|\\[\s\S])*)"/g)].map(([, text]) => text!.replace(/\\\n\s*/g, '').replaceAll('\\"', '"').trim());
    });
    const sentences = literals.filter((text) => /\s\S+.*[.;]$/.test(text));
    expect(sentences.length).toBeGreaterThan(250);
    const missing = sentences.flatMap((text) => (known.has(shape(text)) ? [] : text.split(SENTENCES))).filter((text) => !known.has(shape(text)));
    // Made of parts, or with a name written out: below they are said as they come.
    expect(missing.map(shape).sort()).toEqual([
      'A guide is JSON: {"name": …, "source": "measured" or "published", "tabs": [{"name": "A2", "lab": [L, a, b]}, …]}.',
      'Another pass would help: {}.', 'Stop here: {}, and no stain at hand brings it nearer.', 'Stop here: {}, within the doubt of the readings;',
      'The JPEG file is damaged: {}.', 'The TIFF file asks for more memory than a photo needs.', 'The TIFF file is damaged, or it ends before the picture does.', 'The WebP file ends before the picture does.',
      'The {} has too little{}: add a little.', 'The {} has too much{}: lift or thin it.',
      'a picture with an unknown number of channels.', 'the default guide cannot be read.',
    ].sort());
  });

  /** One of each kind, as the engine says it; most of them with their remedy behind. */
  const checks: Record<CheckCode, string> = {
    'card-missing': 'No grey card is marked, so colours cannot be told from the colour of the light. Tap the grey card in the photo. If there is none in the picture, take the photo again with the card beside the teeth.',
    'card-clipped': '12 % of the card is too bright to be measured (above 250 of 255). Take the photo again with less light or a shorter exposure, and tilt the card until it does not shine.',
    'card-dark': 'The card is almost black in the photo, so its colour is mostly noise. Take the photo again with more light or a longer exposure.',
    'card-textured': 'The card is uneven: 14 % between its darker and its lighter parts. Hold the card flat in the plane of the teeth, without shadow or shine; make sure that the outline holds nothing but card.',
    'card-tilted': 'The card gets 12 % less light than the tabs do: it is turned out of the plane of the teeth, or lies in front of or behind it. Hold the card flat in the plane of the teeth, facing the camera, and take the photo again. The tabs correct the readings meanwhile.',
    'card-small': 'Only 90 usable pixels lie on the card; 400 are needed. Outline more of the card, or photograph it larger.',
    'card-outside': "31 % of the card's outline lies outside the photo. Draw the card's outline within the photo.",
    'card-not-neutral': 'By the tabs, the card is not the grey it is said to be: a channel is off by 7 %. Use a card that is sold as neutral grey, or type the L*, a*, b* printed on it; check that no coloured light falls on the card alone.',
    'tooth-clipped': '12 % of Diente 11 is too bright to be measured. Take the photo again with less light or a shorter exposure.',
    'tooth-dark': 'Tooth “11” reads L* 23, too dark to be judged. Take the photo again with more light on the teeth, or check the outline.',
    'tooth-small': 'Restoration “b” has fewer than 200 usable pixels in its middle third, so no colour is given there. Photograph it larger or with less shine, or check its outline and axis.',
    'region-outside': '40 % of the outline of Tab “A2” lies outside the photo. Draw the outline within the photo.',
    'cast-strong': "The light has a strong colour cast: one channel needs 3.4 times the gain of another. The card takes the cast out, but less exactly than usual. Set the camera's white balance to the light you use, and switch off other lights.",
    'under-exposed': 'The photo is 2.7 stops too dark by the card. Take the photo again with more light: dark pixels are coarse and noisy.',
    blur: "The photo is out of focus: edges are 14 pixels wide, 5.1 % of a region's width, so that zones, and glare and enamel, run into each other. Take the photo again with the focus on the teeth, and not nearer than the lens allows.",
    'light-uneven': 'The light is uneven: about 22 % stronger on the right of the row of teeth and tabs. Light from both sides of the lens, or hold the light further away and in the middle; then take the photo again. A second card beside the teeth helps to correct the rest.',
    'light-mixed': 'Lights of different colour meet on the teeth: it is warmer on the left, by 9 %. Switch off or shade one of the lights (a lamp, the window), so that one kind of light is left, and take the photo again.',
    'space-assumed': 'The file does not say which colour space it is in; sRGB is assumed. Export photos with their colour profile embedded.',
    'profile-unusable': 'The colour profile inside the file cannot be used: its tone curve is missing or damaged. Export the photo again as sRGB.',
    processed: "The photo was processed: a special treatment (HDR, portrait, filter or the like), changed contrast, a digital zoom of 2.0, which invents pixels. That changes value and chroma in ways that the card cannot undo. Switch off filters, portrait, HDR and night modes and digital zoom, and send the camera's own file.",
    recompressed: "The picture is compressed strongly and says nothing of a camera, as after a messenger: colours are coarser than the camera saw them. Send the camera's own file (as a document, by cable or card), not a picture from a chat, an album or a screen.",
    'surface-unlike': 'Tabs and teeth differ in wetness: the tabs look dry and dull, the teeth wet and shiny. Wet the tabs as the teeth are wet (or dry neither), hold them in the plane of the teeth, and take the photo again: a wet surface reflects otherwise than a dry one.',
    'tab-contradicts': 'Tab “B2” does not look like its known colour: the other tabs put it ΔE00 4.2 away. It is not used. Check the name of this tab and its outline. The known colours are published averages; your own tab may differ.',
    'first-of-several': 'The file holds several pictures; the first one is read. Open the single photo if that is not the one meant.',
    'transparency-ignored': 'Parts of the picture are transparent; their colours are read as if they were not. Photos have no transparent parts; check that this is the original.',
    'metadata-damaged': 'The facts about the capture could not all be read. Nothing to do; the picture itself is whole.',
    'reading-unusual': 'Diente reads L* 60, a* 14, b* 2, which is unusual for a tooth or tab. Check the card, its colour and its outline, and that the outline lies on the tooth.',
    'published-averages': 'There is no tab in the photo, so the ladder stands on published averages, which your own tabs may differ from by more than is acceptable. Photograph the tooth together with your own tabs, in one plane, and outline them.',
    'pair-misaligned': 'The cross-polarised photo could not be laid over the plain one. Check that both show the same teeth from the same place; take the pair from a tripod or with the head supported, or lay them over each other by hand.',
    'pair-times': 'The two photos of the pair were taken 7 minutes apart. Teeth dry and get lighter within minutes: take both photos of a pair one right after the other.',
  };
  const foreign = (texts: readonly string[]) => texts.filter((text) => engineWords(text) === text || ENGLISH_WORD.test(unquoted(engineWords(text)))).map((text) => `${text} → ${engineWords(text)}`);

  it('has each light check with its remedy', () => {
    expect(foreign(Object.values(checks))).toEqual([]);
    expect(engineWords(checks['tooth-small'])).toMatch(/^Restauración “b”: menos de 200 píxeles útiles en el tercio medio/);
    expect(engineWords(checks['cast-strong'])).toContain('3,4 veces');
    expect(engineWords(checks.processed)).toContain('un zoom digital de 2,0, que inventa píxeles');
    expect(engineWords('In the cross-polarised photo: 12 % of the card is too bright to be measured (above 250 of 255).')).toBe('En la foto con polarización cruzada: el 12 % de la tarjeta es demasiado claro para medirlo (más de 250 de 255).');
  });

  /** As reports, plans, passes, looks and exercises of the invented cases have them. */
  const said = [
    'The card, and tabs by published colours: A1, A2, A3, B2, C1.', 'The grey card alone.', 'The zone lies between Muestra 2 and Muestra 4.',
    'C1, A2, A3 and B2 cannot be told apart here: they differ from the zone by the same within the doubt.',
    'clearly darker, clearly more chroma, slightly redder', 'lighter, less chroma, clearly yellower', 'slightly another hue', 'no difference to speak of from its target', 'lowers value, adds chroma, towards yellow', 'hardly a change',
    'Lower the value: thin coats that take light away (grey, or the body stain if chroma is missing too).',
    'Cervical and middle third: 6 parts umber + 1 part slate, 1½ coats.', 'Incisal third: umber alone, ¾ coat.', 'Cervical, middle and incisal third: umber alone, 3 coats.',
    'Across the neck from side to side, fullest at the gum line; thinned out over 35 % of the middle third.',
    'In short strokes towards the edge, blended upwards into the body; thinned out over 20 % of the middle third; thinned out over 20 % of the cervical third.',
    'Cervical third fired: L* 72.1, a* 1.8, b* −0.4 (± ΔE00 0.9), clearly darker, more chroma than the bare restoration. Middle third fired: L* 72.1, a* 1.8, b* 18.0 (± ΔE00 0.9), hardly different from the bare restoration.',
    'Middle third: L* 72.1, a* 1.8, b* 18.0 (± ΔE00 0.9), slightly darker than the bare restoration.',
    'Unfired paint looks other than fired; judge evenness and where it lies. Most paint lies on the cervical third; no border shows.',
    '7½ coats in all would bring it to ΔE00 0.7; your limit is 1½ coats in each of 2 firings.', 'Incisal third: 4 coats in all would bring it to ΔE00 0.7; your limit is 1 coat in one firing.',
    '“umber” and “slate”, which your limits leave out, would bring it to ΔE00 0.7.', 'no allowed mix comes nearer than ΔE00 1.2; 1.3 y 1.4.',
    'the target is lighter by L* 1.2; 1.5 y 2.0, and surface stain takes light away; the one that lightens is ruled out by your limits. It stays ΔE00 1.1 from its target.',
    'Middle third: the target is lighter by L* 1.2, and the lightening stain at hand does not bring it there. It stays ΔE00 1.1 from its target.',
    'the target is darker; with what may be used L* stays 1.4 too high. It stays ΔE00 1.1 from its target.', 'the target is redder, and no allowed mix turns the hue that far. It stays ΔE00 1.1 from its target.',
    'it has more chroma than its target by C* 2.2. Only a complementary stain takes chroma away, and value with it, or a light one, at the price of opacity. It stays ΔE00 1.1 from its target.',
    'value is raised by L* 1.0 with a light, scattering stain. The price is opacity (9 % of the light comes back from the coats themselves) and a flatter look.',
    'Came out ΔE00 2.1 from what was predicted: darker, more chroma. The coats did about 140 % of what was meant: thicker coats than planned.', 'Came out as predicted (ΔE00 0.4 apart, within the doubt).',
    'Stop here: the cervical third is ΔE00 1.1 from its target, within the doubt of the readings; another pass would chase noise.', 'Another pass would help: the incisal third is ΔE00 2.0 from its target.',
    'Stop here: the middle third is ΔE00 1.1 from its target, and no stain at hand brings it nearer.',
    'Directions only: 1 of your own pairs of unfired and fired readings are known; from 4 that agree the fired colour can be predicted.',
    'The middle third is patchy (unevenness ΔE00 1.3): spread it before anything else. The middle third has too much (about 140 % of what was meant): lift or thin it.', 'The middle third has too little: add a little.',
    'Cervical third is furthest off (ΔE00 2.2: clearly darker, more chroma): next time lay it thinner or one coat less there.',
    'The swatch of “umber” (jar 2) has 15 coats. Give the coats that were painted and fired, more than 0 and at most 12.', 'The swatch of a mix: its result, L* 20.0, a* 1.0, b* 3.0, is no colour of a dental ceramic.',
    'A swatch of “umber” (1.5 coats) is ΔE00 2.2 from what its others predict. Look at its photos again, or fire it again; until then the strengths are a compromise.',
    "“umber” changes its swatches by ΔE00 0.4 at most, hardly more than the readings' own uncertainty.", 'None of the swatches can be used. The swatch of “umber” names no stain. Give at least one swatch: a stain, the coats, the base before and the colour after firing.',
    'The JPEG file is damaged: its header breaks off. Copy it again from the camera or ask the sender for the original file.', 'This kind of TIFF is not read (32 bits per channel or floating point). Save it as an ordinary RGB TIFF with 8 or 16 bits per channel, uncompressed or LZW.',
    'This is a HEIC picture, which is not read. Set the camera to its most compatible format, or share the picture as JPEG.', 'This is a PDF document, not a photo that is read here. Save it as JPEG, PNG, 16-bit TIFF or WebP and open that.',
    'The photo has 20000 × 9000 pixels (180 megapixels); at most 100 are taken. Open a smaller version, or crop it to the teeth, tabs and card.',
    "The card's outline has 2 corners; at least three are needed. Draw the outline again, with at least three corners around an area.", 'The outline of “Diente a” encloses no area.',
    'No tab stands out at that place. Tap nearer to its middle, or draw the outline by its corners.', 'The scene could not be read: unknown field. Check the file or the numbers.',
    'Incisal third: The base L* 20.0, a* 1.0, b* 3.0 is no colour of a dental ceramic. Check the reading: L* 35 to 97, a* -12 to 20, b* -10 to 45 are taken.',
  ];

  it('has what reports, plans, passes and errors say', () => expect(foreign(said)).toEqual([]));

  it('puts the parts together as people say them', () => {
    expect(engineWords('clearly darker, clearly more chroma, slightly redder')).toBe('claramente más oscuro, claramente más croma, algo más rojo');
    expect(engineWords('C1, A2, A3 and B2 cannot be told apart here: they differ from the zone by the same within the doubt.')).toBe('C1, A2, A3 y B2 no se distinguen aquí: distan lo mismo de la zona, dentro de la incertidumbre.');
    expect(engineWords('Middle and incisal third: 6 parts umber + 1 part slate, 1½ coats.')).toBe('Tercios medio e incisal: 6 partes umber + 1 parte slate, 1½ capas.');
    expect(engineWords('Middle third: L* 72.1, a* 1.8, b* 18.0 (± ΔE00 0.9), slightly darker than the bare restoration.')).toBe('Tercio medio: L* 72,1, a* 1,8, b* 18,0 (± ΔE00 0,9), algo más oscuro que la restauración sin tinte.');
    expect(words.plan.still(engineWords('no difference to speak of from its target'))).toBe('sin diferencia apreciable con su objetivo');
  });

  it('leaves what it does not know', () => expect(engineWords('Something else altogether. The grey card alone.')).toBe('Something else altogether. The grey card alone.'));
});
