import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import '../src/words/later';
import { Engine, initSync, type Plan, type PlanLimits } from '../pkg/tabside.js';
import { THIRDS, type CheckCode, type Lab } from '../src/engine/types';
import type { Said } from '../src/state/patient/facts';
import type { Remedy } from '../src/state/patient/remedy_model';
import { AMOUNTS, type Clause, type Way } from '../src/state/patient/sentence_model';
import { findingsOf } from '../src/views/plan/findings';
import { ENGLISH, language } from '../src/words';
import * as german from '../src/words/de';
import { engineWords } from '../src/words/engine';

const ROOT = new URL('../../', import.meta.url);
const textOf = (file: string) => readFileSync(new URL(file, ROOT), 'utf8');
const jsonOf = (file: string) => JSON.parse(textOf(file));

beforeAll(() => {
  language.value = { tag: 'de', decimal: ',', words: german.words, engine: german.engine };
});
afterAll(() => {
  language.value = ENGLISH;
});

function entries(node: unknown, path: string[] = []): [string, unknown][] {
  return typeof node === 'object' && node !== null ? Object.entries(node).flatMap(([key, value]) => entries(value, [...path, key])) : [[path.join('.'), node]];
}
const [english, own] = [new Map(entries(ENGLISH.words)), new Map(entries(german.words))];

/** Signs, and words that are the same in both languages. */
const SAME = new Set([
  'demo.name', 'swatches.demoNote', 'views.photo', 'clock.sources.2', 'evenness.unit', 'flow.steps.photo', 'flow.tab.nameless', 'help.terms.shown.chroma', 'help.terms.shown.deltaE',
  'keys.names.steps.Escape', 'modes.names.plan', 'numbers.l', 'numbers.a', 'numbers.b', 'numbers.c', 'numbers.h', 'numbers.doubt', 'numbers.photo', 'pair.fields.scale', 'plan.title', 'practice.file', 'shape.name',
  'shape.card.l', 'shape.card.a', 'shape.card.b', 'sheet.chroma', 'sheet.deltaE', 'sheet.valueUnit', 'sheet.ladder.l', 'sheet.ladder.c', 'sheet.ladder.h', 'stage.actual',
]);

describe('the German catalogue', () => {
  it('has every entry of the English one, of the same kind, and no other', () => {
    expect([...own.keys()].sort()).toEqual([...english.keys()].sort());
    const kind = (value: unknown) => (typeof value === 'function' ? `function of ${value.length}` : typeof value);
    for (const [path, value] of english) expect([path, kind(own.get(path))]).toEqual([path, kind(value)]);
  });

  it('is nowhere left in English, and nowhere empty', () => {
    const texts = [...own].filter(([, value]) => typeof value === 'string') as [string, string][];
    expect(texts.filter(([path, text]) => text === english.get(path) && !SAME.has(path))).toEqual([]);
    expect(texts.filter(([, text]) => text.trim() === '')).toEqual([]);
    // Of functions only the text in them can be looked at.
    const same = [...own].filter(([path, value]) => typeof value === 'function' && path !== 'names.said' && String(value) === String(english.get(path)) && /['`][^'`]*[a-z]{4}/.test(String(value).replace(/\$\{[^}]*\}/g, '')));
    expect(same.map(([path]) => path)).toEqual([]);
  });

  it('quotes and dashes as German does', () => {
    for (const [path, value] of own) if (path !== 'names.said') expect([path, String(value)]).not.toEqual([path, expect.stringMatching(/“[^“”]*”|—/)]);
  });

  it('has its plurals right', () => {
    const { words: w } = german;
    const said = (make: (n: number) => string) => [0, 1, 2].map(make);
    expect(said(w.notes.gist)).toEqual(['keine', '1 Notiz', '2 Notizen']);
    expect(said(w.shape.depthGist)).toEqual(['0 Umrisse', '1 Umriss', '2 Umrisse']);
    expect(said(w.tray.added)).toEqual(['0 Fotos geöffnet.', '1 Foto geöffnet.', '2 Fotos geöffnet.']);
    expect(said((n) => w.tray.failed(n, 3))).toEqual(['0 von 3 Dateien ließen sich nicht öffnen.', '1 von 3 Dateien ließ sich nicht öffnen.', '2 von 3 Dateien ließen sich nicht öffnen.']);
    expect(said(w.plan.firings)).toEqual(['0 Brände', '1 Brand', '2 Brände']);
    expect(said((n) => w.plan.made(n, n))).toEqual(['Plan: nichts aufzutragen.', 'Plan: 1 Drittel in 1 Brand.', 'Plan: 2 Drittel in 2 Bränden.']);
    expect(said(w.plan.short).slice(1)).toEqual(['1 Drittel kann sein Ziel nicht erreichen; siehe unten', '2 Drittel können ihr Ziel nicht erreichen; siehe unten']);
    expect(said(w.swatches.holdsDemo).slice(1).map((t) => t.split(' am ')[0])).toEqual(['Eine Brennprobe Ihres Buchs wurde', '2 Brennproben Ihres Buchs wurden']);
    expect(said((n) => w.swatches.opened('a', n, n))).toEqual(['a: 0 Brennproben hinzugefügt.', 'a: 1 Brennprobe hinzugefügt, 1 war schon da.', 'a: 2 Brennproben hinzugefügt, 2 waren schon da.']);
    expect(w.found.what(true, 1, 2)).toBe('Gefunden: Karte, 1 Farbmuster und 2 Zähne.');
    expect(w.found.what(false, 0, 1)).toBe('Gefunden: 1 Zahn.');
  });

  it('has articles within sentences', () => {
    const { errors, found, passes, plan, sheet } = german.words;
    expect([sheet.how('Restauration 21'), sheet.how('Zahn'), sheet.nearestTo('Zahn 11'), sheet.nearestTo('Restauration'), sheet.nearestTo('Farbmuster A2')]).toEqual([
      'So kommt die Restauration 21 näher', 'So kommt der Zahn näher', 'zum Zahn 11', 'zur Restauration', 'zum Farbmuster A2',
    ]);
    expect(passes.takes('Restauration 21', 'Zahn 11')).toBe('Die Restauration 21 gilt als gebrannte Restauration, der Zahn 11 als Ziel.');
    expect([found.ask('Zahn c'), found.against('Zahn c', 'Zahn d')]).toEqual(['Ist der Zahn c die Restauration?', 'Der Zahn c wird mit dem Zahn d verglichen.']);
    expect(errors.outlineFailed('Zahn c')).toBe('Kein Umriss gefunden für den Zahn c.');
    const limits = { coats_per_firing: 3, firings: 2, stains_per_mix: 2, stains: [], may_lighten: true, foundation: false };
    expect([plan.limits.inWords(limits, '3'), plan.limits.inWords({ ...limits, firings: 1 }, '3')].map((t) => t.split('; ')[1])).toEqual(['bis zu 2 Brände', 'bis zu 1 Brand']);
  });

  it('names the button that brings back as the button is named', () => {
    const said = [...own].filter(([path, value]) => /„(Zurück|Vor)“/.test(String(value)) && !path.startsWith('tray.'));
    expect(said.map(([path]) => path)).toEqual([]);
    expect([german.words.menu.undo, german.words.menu.redo]).toEqual(['Rückgängig', 'Wiederholen']);
    expect(german.words.status.removed('Zahn c')).toContain(`„${german.words.menu.undo}“`);
  });

  it('bends the thirds', () => {
    const { plan, names, notes } = german.words;
    expect(plan.zones([names.zoneShort.cervical, names.zoneShort.middle.toLowerCase(), names.zoneShort.incisal.toLowerCase()])).toBe('Zervikales, mittleres und inzisales Drittel');
    expect(plan.zones([names.zoneShort.middle])).toBe('Mittleres Drittel');
    expect(plan.featherInto('25 %', names.zone.middle)).toBe('über 25 % des mittleren Drittels');
    expect(notes.where.onThird('Zahn a', names.zone.incisal)).toBe('auf Zahn a, im inzisalen Drittel');
  });
});

const clause = (amount: Clause['amount'], ways: Way[], thirds: readonly (typeof THIRDS)[number][], mostly = false): Clause => ({ amount, ways, where: { thirds, mostly } });
const differs = (...clauses: Clause[]): Said['difference'] => ({ kind: 'differs', clauses, colourOnly: false });
const say = (difference: Said['difference'], also: Partial<Said> = {}, thing: 'crown' | 'veneer' = 'crown') => german.words.patient.said({ difference, remedy: null, beside: 'neighbour', partly: false, ...also }, thing);

describe('the patient’s sentence in German', () => {
  it('reads as one would say it', () => {
    expect(say(differs(clause('little', ['brighter'], ['incisal'], true)))).toBe('Ihre Krone ist vor allem an der Schneidekante etwas heller als der Zahn daneben.');
    expect(say(differs(clause('clearly', ['stronger', 'redder'], THIRDS)), { beside: 'tooth' }, 'veneer')).toBe('Ihr Veneer ist überall deutlich kräftiger in der Farbe und rötlicher als der Vergleichszahn.');
    expect(say(differs(clause('much', [], ['cervical', 'middle'])), { beside: 'sample' })).toBe('Ihre Krone ist am Zahnfleisch und in der Mitte ganz anders in der Farbe als die Vergleichsprobe.');
    expect(say(differs(clause('much', ['brighter'], ['incisal'], true), clause('little', ['paler'], ['cervical'])), { partly: true })).toBe('Soweit das Foto es zeigt, ist Ihre Krone vor allem an der Schneidekante viel heller als der Zahn daneben und am Zahnfleisch etwas blasser.');
    expect(say({ kind: 'unsure' }, {}, 'veneer')).toBe('Mit diesem Foto lässt sich zwischen Ihrem Veneer und dem Zahn daneben kein sicherer Unterschied erkennen.');
    expect(say({ kind: 'alike' }, { partly: true })).toBe('Soweit das Foto es zeigt, sind Ihre Krone und der Zahn daneben einander so ähnlich, dass die meisten Menschen keinen Unterschied sehen würden.');
    expect(say({ kind: 'hardly' }, { beside: 'sample' })).toBe('Ihre Krone und die Vergleichsprobe sind kaum verschieden.');
  });

  it('promises nothing', () => {
    const after = (remedy: Remedy) => say(differs(clause('little', ['brighter'], ['incisal'])), { remedy }).split('; ')[1];
    expect(after({ kind: 'together', coats: 1, price: false })).toBe('eine dünne Schicht Farbe könnte beide einander angleichen.');
    expect(after({ kind: 'closer-maybe', coats: 2, price: false })).toBe('zwei dünne Schichten Farbe könnten beide einander näherbringen, ein kleiner Unterschied kann bleiben.');
    expect(after({ kind: 'closer', coats: 5, price: true })).toBe('mehrere dünne Schichten Farbe könnten beide einander näherbringen, ein Unterschied bliebe aber, und Ihre Krone könnte etwas weniger lebendig wirken.');
    expect(after({ kind: 'no-gain' })).toBe('Bemalen würde sie einander nicht ähnlicher machen.');
    expect(after({ kind: 'darkens' })).toBe('Farbe dieser Art kann nur abdunkeln, deshalb bespricht Ihre Praxis mit Ihnen andere Möglichkeiten.');
  });

  it('is one plain sentence whatever it is made of', () => {
    const ways: Way[][] = [[], ['brighter'], ['darker', 'paler'], ['stronger', 'yellower'], ['redder']];
    const remedies: (Remedy | null)[] = [null, { kind: 'darkens' }, { kind: 'no-gain' }, ...(['together', 'closer-maybe', 'closer'] as const).flatMap((kind) => [1, 2, 3, 9].map((coats) => ({ kind, coats, price: coats > 1 })))];
    const told = AMOUNTS.flatMap((amount) => ways.flatMap((w) => [differs(clause(amount, w, THIRDS)), differs(clause(amount, w, ['incisal'], true), clause('little', ['paler'], ['cervical', 'middle']))]));
    const all = [...told, ...(['unsure', 'alike', 'hardly'] as const).map((kind) => ({ kind }))].flatMap((d) => remedies.flatMap((remedy) => (['neighbour', 'tooth', 'sample'] as const).flatMap((beside) => (['crown', 'veneer'] as const).map((thing) => say(d, { remedy, beside, partly: beside === 'tooth' }, thing)))));
    expect(all.length).toBeGreaterThan(2000);
    for (const text of all) {
      expect(text).toMatch(/^[A-Z][A-Za-zäöüß ,;]+\.$/);
      expect(text).not.toMatch(/undefined| {2}|Drittel|Restauration|Malfarbe|Helligkeit|Chroma| ,|\b(the|your|and|is)\b/);
    }
  });
});

/** Words that only English sentences have. */
const ENGLISH_WORDS = /\b(the|and|of|with|is|are|your|it|third|than|lighter|darker|chroma|hue|coats?|parts?)\b/;
/** Sentences that stayed as the engine said them, or are English in part. */
const untold = (texts: Iterable<string>): string[] => [...new Set(texts)].filter((text) => text && (engineWords(text) === text || ENGLISH_WORDS.test(engineWords(text))));

const SPOKEN = new Set(['text', 'remedy', 'words', 'note', 'steps', 'cautions', 'raise', 'leave', 'look', 'title', 'stroke', 'instead']);
function spoken(node: unknown, key = ''): string[] {
  if (typeof node === 'string') return SPOKEN.has(key) ? [node] : [];
  if (Array.isArray(node)) return node.flatMap((part) => spoken(part, key));
  return typeof node === 'object' && node !== null ? Object.entries(node).flatMap(([k, v]) => spoken(v, k)) : [];
}

/** The engine really runs. */
const SLOW_MS = 30_000;

describe('what the engine says, in German', () => {
  const stains = jsonOf('fixtures/demo/demo.swatches.json');
  let engine: Engine;
  beforeAll(() => {
    initSync({ module: readFileSync(new URL('www/pkg/tabside_bg.wasm', ROOT)) });
    engine = new Engine();
  });

  it('of the demo photo is told whole', () => {
    const { id } = engine.open(readFileSync(new URL('fixtures/demo/demo.jpg', ROOT)));
    const scene = jsonOf('fixtures/demo/demo.truth.json').scene;
    const bare = { ...scene, regions: scene.regions.filter((r: { kind: string }) => r.kind !== 'tab') };
    const texts = [scene, bare, { ...scene, card: undefined }].flatMap((s) => spoken(engine.read(id, s, {} as never)));
    expect(untold(texts)).toEqual([]);
    expect(new Set(texts).size).toBeGreaterThan(40);
  }, SLOW_MS);

  it('of plans, passes, looks and practice is told whole', () => {
    const base: Lab = [78, 0, 14];
    const targets: Lab[] = [[74, 2, 19], [70, 3, 26], [83, -1, 10], [60, 1, 12], [76, -2, 22], [77.6, 0.1, 14.3], [75, 6, 16], [78, 0, 5]];
    const limits: PlanLimits[] = [{}, { firings: 1, coats_per_firing: 1 }, { firings: 2, coats_per_firing: 1.5, foundation: true }, { may_lighten: true, stains_per_mix: 1 }, { stains: [stains.stains[0].name] }, { stains: [stains.stains[1].name], coats_per_firing: 0.5, firings: 2 }];
    const plans: Plan[] = targets.flatMap((to, at) => limits.slice(0, at < 3 ? limits.length : 2).map((l) => engine.plan(stains, { zones: THIRDS.map((zone, i) => ({ zone, from: base, to: [to[0] - 2 * i, to[1], to[2] + i], doubt: 0.4 })), limits: l } as never)));
    expect(new Set(plans.flatMap((p) => p.shortfalls.map((s) => s.code))).size).toBeGreaterThanOrEqual(6);
    const zones = (got: Lab, target: Lab, doubt: number) => THIRDS.map((zone) => ({ zone, before: base, predicted: [75, 1.5, 18] as Lab, got, target, doubt, predicted_doubt: doubt, paint: { mix: [], coats: 1 }, base, unfired: got, blotch: 1.4, target_blotch: 0.4, blotch_before: 0.3 }));
    const cases = targets.flatMap((got) => targets.slice(0, 4).flatMap((target) => [0.1, 2].map((doubt) => zones(got, target, doubt))));
    const said = [
      ...plans,
      engine.fit_swatches(stains),
      ...cases.flatMap((z) => [engine.score_practice({ zones: z } as never), engine.look_unfired(stains, { zones: z } as never)]),
      ...cases.slice(0, 12).map((z) => engine.review_pass(stains, { zones: z, limits: {} } as never)),
    ];
    expect(untold(spoken(said))).toEqual([]);
    // As the page puts them together.
    for (const { text, thirds } of plans.flatMap((p) => findingsOf(p.shortfalls))) expect(`${thirds}: ${text}`).not.toMatch(ENGLISH_WORDS);
    for (const look of plans.flatMap((p) => p.steps.map((s) => s.look.replace(/ third fired:/g, ' third:')))) expect(engineWords(look)).not.toMatch(ENGLISH_WORDS);
  }, SLOW_MS);

  it('of swatches that are wrong is told whole', () => {
    const swatch = (more: object) => ({ stain: 'umber', coats: 1, base: [75, 1, 16], after: [72, 2, 18], ...more });
    const books = [
      [swatch({ stain: '' })], [swatch({ coats: 0, note: 'tab 3' })], [swatch({ doubt: 40 })], [swatch({ base: [10, 1, 1] })], [swatch({ after: [10, 1, 1] })], [swatch({ stain: '', mix: { umber: 0.7 } })],
      [swatch({}), swatch({ stain: 'Umber ' })], [swatch({})], [swatch({}), swatch({})], [swatch({ after: [75, 1, 16.1] })], [swatch({}), swatch({ coats: 2, after: [74.5, 1.2, 16.4] })],
      [swatch({}), swatch({}), swatch({ after: [80, 1, 12] }), swatch({ coats: 2, after: [69, 3, 20] })],
    ];
    const checks = books.flatMap((swatches) => {
      try {
        return spoken(engine.fit_swatches({ name: 'b', stains: [{ name: 'slate' }], swatches } as never));
      } catch (error) {
        return [(error as Error).message];
      }
    });
    expect(checks.length).toBeGreaterThan(20);
    expect(untold(checks)).toEqual([]);
  });
});

const RUST = ['light', 'reading', 'scene', 'error', 'photo', 'engine', 'stain', 'web'].flatMap((dir) =>
  readdirSync(new URL(`src/${dir}/`, ROOT), { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.rs')).map((f) => textOf(`src/${dir}/${f}`)),
);
/** What stands between quotes in the engine, without tests and remarks, and lines put together. */
const literals = RUST.flatMap((file) => [...file.split('#[cfg(test)]')[0]!.replace(/^\s*\/\/.*$/gm, '').replace(/'"'/g, '').matchAll(/"((?:[^"\\]|\\.)*)"/gs)].map((m) => m[1]!.replace(/\\\n\s*/g, '').replace(/\\"/g, '"')));

/** A sample of every light check: the engine's own text, filled. */
const SAMPLES: Record<CheckCode, [string, ...string[]][]> = {
  'card-missing': [['No grey card is marked, so colours cannot be told from the colour of the light.']],
  'card-clipped': [['{} of the card is too bright to be measured (above {:.0} of 255).', '12 %', '250']],
  'card-dark': [['The card is almost black in the photo, so its colour is mostly noise.'], ['The card has no light in at least one colour channel, so nothing can be balanced on it.']],
  'card-textured': [['{} of the card differs from the rest of it: print, dirt or shine.', '7 %'], ['The card is uneven: {} between its darker and its lighter parts.', '14 %']],
  'card-tilted': [['The card gets {:.0} % {way} light than the tabs do: it is turned out of the plane of the teeth, or lies in front of or behind it.', '9', 'less']],
  'card-small': [['Only {} usable pixels lie on the card; {MIN_CARD_PIXELS} are needed.', '12', '200']],
  'card-outside': [["{} of the card's outline lies outside the photo.", '30 %']],
  'card-not-neutral': [['By the tabs, the card is not the grey it is said to be: a channel is off by {:.0} %.', '8'], ["The card's steps do not agree with their known colours: ΔE00 {worst:.1} remains on the worst.", '4.2']],
  'tooth-clipped': [['{:.0} % of {name} is too bright to be measured.', '11', 'Tooth “11”']],
  'tooth-dark': [['{name} reads L* {l:.0}, too dark to be judged.', 'Zahn a', '21']],
  'tooth-small': [['{name} has fewer than {MIN_ZONE_PIXELS} usable pixels in its {}, so no colour is given there.', 'Tab “A2”', '60', 'cervical third and incisal third']],
  'region-outside': [['{:.0} % of the outline of {name} lies outside the photo.', '22', 'Restoration “21”']],
  'cast-strong': [['The light has a strong colour cast: one channel needs {cast:.1} times the gain of another.', '2.3']],
  'under-exposed': [['The photo is {:.1} stops too dark by the card.', '1.8']],
  blur: [["The photo is {what}: edges are {:.0} pixels wide, {:.1} % of a region's width, so that {meaning}.", 'shaken', '9', '4.1', 'fine detail is lost'], ["The photo is {what}: edges are {:.0} pixels wide, {:.1} % of a region's width, so that {meaning}.", 'out of focus', '20', '9.4', 'zones, and glare and enamel, run into each other']],
  'light-uneven': [['The light is uneven: about {:.0} % stronger on the {side} of the row of teeth and tabs.', '25', 'left']],
  'light-mixed': [['Lights of different colour meet on the teeth: it is warmer on the {side}, by {:.0} %.', 'right', '12']],
  'space-assumed': [['The file does not say which colour space it is in; sRGB is assumed.']],
  'profile-unusable': [['The colour profile inside the file cannot be used: {why}.', 'it is damaged']],
  processed: [
    ['The photo was processed: {}. That changes value and chroma in ways that the card cannot undo.', 'a special treatment (HDR, portrait, filter or the like), a digital zoom of 2.0, which invents pixels'],
    ['The photo may have been processed: {}.', 'the camera sharpened or softened it, it was written again after it was taken'],
    ["Card and tabs agree only if the picture's tones were bent: a camera style, a filter or an edit."],
    ['The photo is black and white: it holds no colours that could be read.'],
  ],
  recompressed: [['The picture {}: colours are coarser than the camera saw them.', 'is compressed strongly and says nothing of a camera, as after a messenger'], ['The JPEG is compressed strongly (about quality {quality:.0} of 100).', '55']],
  'surface-unlike': [['Tabs and teeth differ in wetness: {which}.', 'the tabs look dry and dull, the teeth wet and shiny'], ['Tabs and teeth differ in wetness: {which}.', 'the teeth look dry and dull, the tabs wet and shiny']],
  'tab-contradicts': [['Tab “{}” does not look like its known colour: the other tabs put it ΔE00 {:.1} away. It is not used.', 'A3.5', '6.1'], ['Tab “{name}” is given as L* {l:.0}, a* {a:.0}, b* {b:.0}, which no tooth or tab is. It is not used.', 'A2', '20', '1', '3']],
  'first-of-several': [['The file holds several pictures; the first one is read.']],
  'transparency-ignored': [['Parts of the picture are transparent; their colours are read as if they were not.']],
  'metadata-damaged': [['The facts about the capture could not all be read.']],
  'reading-unusual': [['{name} reads L* {l:.0}, a* {a:.0}, b* {b:.0}, which is unusual for a tooth or tab.', 'Farbmuster 2', '96', '-3', '40']],
  'published-averages': [['There is no tab in the photo, so the ladder stands on published averages, which your own tabs may differ from by more than is acceptable.']],
  'pair-misaligned': [['The cross-polarised photo could not be laid over the plain one.']],
  'pair-times': [['The two photos of the pair were taken {apart} minutes apart.', '12']],
};

const fill = (template: string, values: readonly string[]): string => values.reduce((text, value) => text.replace(/\{[^}]*\}/, value), template);

describe('every sentence of the engine', () => {
  it('has a sample for each light check, as the engine writes it', () => {
    const samples = Object.values(SAMPLES).flat();
    expect(samples.map(([template]) => template).filter((template) => !literals.includes(template))).toEqual([]);
    const texts = samples.map(([template, ...values]) => fill(template, values));
    expect(untold(texts)).toEqual([]);
    expect(untold(texts.flatMap((t) => [`At the card's second place: ${t}`, `In the cross-polarised photo: ${t}`]))).toEqual([]);
    expect(engineWords(texts.find((t) => t.startsWith('Tab “A2” has'))!)).toBe('Farbmuster A2: im zervikalen Drittel und im inzisalen Drittel weniger als 60 brauchbare Pixel, deshalb steht dort keine Farbe.');
  });

  // A new sentence in the engine shows here until it is translated.
  it('is told for some filling of its blanks', () => {
    const FILL = ['12', '3.4', '12 %', 'A2', '“A2”', 'Tab “A2”', 'left', 'cervical third', 'Cervical third', 'it is damaged', 'a web page', 'The outline', 'JPEG', '1½ coats', 'more', 'redder', 'L* 3', 'the cervical third is ΔE00 2.1 from its target', 'The swatch of “umber”', 'base', '1½ coats in one firing', 'the tabs look dry and dull, the teeth wet and shiny', 'was compressed strongly before and saved again', ' (about 12 % of what was meant)', 'card', 'surface stain takes light away; the one that lightens is ruled out by your limits', 'It stays ΔE00 2.1 from its target.'];
    // Parts of sentences, and what no page shows.
    const NOT = /^(\{what\} \{remedy\}|Classical sixteen|\{name\} and \{last\}|The outline of)|derive|expects|serde|^\{\}: \{text\}|^\{\}: \{what\}/;
    const sentences = [...new Set(literals)].filter((t) => /^[A-Z{“].* .*[.;]$/s.test(t) && !NOT.test(t) && !t.includes('interface') && !t.includes('\n'));
    expect(sentences.length).toBeGreaterThan(200);
    const told = (text: string): boolean => {
      const at = text.search(/\{[^}]*\}/);
      return at < 0 ? untold([text]).length === 0 : FILL.some((value) => told(text.replace(/\{[^}]*\}/, () => value)));
    };
    const short = (text: string) => (text.match(/\{[^}]*\}/g)?.length ?? 0) <= 2;
    expect(sentences.filter(short).filter((t) => !told(t))).toEqual([]);
  });
});
