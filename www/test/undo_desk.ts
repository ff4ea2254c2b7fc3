/** What can be done and undone about notes, photos, pairs and guides. Import after `engine/instance` is a fake. */
import type { Scene } from '../src/engine/types';
import { FAKE_GUIDE } from './fake_engine';
import { square } from './squares';
import type { Action, Dice } from './undo_actions';

const [{ doc }, open, notes, pair, tabs, tray, add, { removePolarised }] = await Promise.all([
  import('../src/state/desk'), import('../src/state/open'), import('../src/state/notes_edit'), import('../src/state/pair'), import('../src/state/tab_book'), import('../src/state/tray/show'), import('../src/state/tray/add'), import('../src/views/actions'),
]);
const { dragged, pick, place, typedIn } = await import('./undo_actions');

const file = (name: string): File => new File([new Uint8Array([0xff, ...new TextEncoder().encode(name)])], name, { type: 'image/jpeg' });
const json = (value: unknown, name: string): File => new File([JSON.stringify(value)], name, { type: 'application/json' });
const someScene = (dice: Dice): Scene => ({ card: { outline: square(dice(900), 600, 90) }, regions: [{ id: 'own', kind: 'tooth', name: '11', outline: square(dice(1000), 100, 90), cervical: [10, 10], incisal: [20, 90] }] });
let files = 0;
let first = false;

const OF_NOTES: readonly Action[] = [
  { name: 'pin a note', act: (dice) => void notes.pinNote(place(dice)) },
  dragged('move a note', (dice, run) => { const n = pick(dice, doc.value.notes); if (n) notes.moveNote(n.id, place(dice), run); }),
  typedIn('write a note', (i) => { const n = doc.value.notes[0]; if (n) notes.writeNote(n.id, `chip ${i}`); }),
  { name: 'remove a note', act: (dice) => { const n = pick(dice, doc.value.notes); if (n) notes.removeNote(n.id); } },
];

const OF_DESK: readonly Action[] = [
  { name: 'open a photo', act: () => open.openPhoto(file(`p${++files}.jpg`), `p${files}.jpg`) },
  {
    name: 'lay photos',
    // One that is looked at at once, because there was none, is a step of its own.
    run: () => (first ? ((first = false), null) : `lay ${files}`),
    act: (dice) => {
      first = !doc.value.photo;
      const s = json(someScene(dice), 's.json');
      return add.addPhotos([file(`p${++files}.jpg`), file(`p${++files}.jpg`)], () => s);
    },
  },
  { name: 'take a photo off', act: async (dice) => { const all = [doc.value.photo, ...doc.value.tray.map((l) => l.photo)].filter((p) => p !== null); const p = pick(dice, all); if (p) await tray.takeOff(p); } },
  { name: 'look at another photo', look: true, act: async (dice) => { const laid = pick(dice, doc.value.tray); if (laid) await tray.showLaid(laid.photo); } },
  { name: 'open a polarised photo', act: () => open.openPolarised(file(`x${++files}.jpg`), 'x.jpg') },
  typedIn('lay the pair by hand', (i) => pair.putLay({ x_px: i, turn_deg: i / 10 })),
  { name: 'lay the pair by itself', act: pair.layAutomatically },
  { name: 'remove the polarised photo', act: removePolarised },
  { name: 'open a scene', act: (dice) => open.openScene(json(someScene(dice), 's.scene.json'), 's.scene.json') },
  { name: 'open a guide', act: (dice) => open.openGuide(json({ ...FAKE_GUIDE, name: `Guide ${dice(99)}` }, 'g.json'), 'g.json') },
  { name: 'own tabs', act: () => { tabs.fillFromGuide(); return tabs.takeDraft(); } },
];

export const ON_DESK: readonly Action[] = [...OF_NOTES, ...OF_DESK];
