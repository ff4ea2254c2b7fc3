/**
 * What is done behind the photo that is looked at: photos of the tray are searched and read, and when
 * none is left the next file is opened. So each is decoded once, and few are at a time.
 */
import { effect, signal } from '@preact/signals';
import type { OpenPhoto } from '../../engine/desk';
import { desk } from '../../engine/instance';
import { amend, doc } from '../desk';
import type { Laid } from '../doc';
import { withFound } from '../found';
import { describe } from '../problems';
import { busy } from '../status';
import { incoming } from './incoming';
import { isEmpty, withAmended } from './laid';
import { again, isTaken, mayBegin, QUIET_MS, rest, take, type Slot } from './lanes';
import { learn, resultOf, settle, wasSettled } from './reports';

export type Doing = 'find' | 'read';
/** What is being done with which laid photos. */
export const trayWork = signal<readonly { photo: OpenPhoto; doing: Doing }[]>([]);

const unsearched = ({ photo, scene }: Laid): boolean => isEmpty(scene) && !wasSettled(photo);

async function find(laid: Laid, slot: Slot): Promise<void> {
  try {
    const { scene, proposal } = withFound(laid.scene, await desk.find(laid.photo, slot));
    amend((d) => withAmended(d, laid, { scene, proposal }));
  } catch (error) {
    if (again(slot, error)) return;
    // It is read as it is; that says what is missing.
  }
  settle(laid.photo);
}

async function read(laid: Laid, slot: Slot): Promise<void> {
  const { guide } = doc.peek();
  try {
    learn(laid, guide, await desk.read({ ...laid, guide }, slot));
  } catch (error) {
    if (!again(slot, error)) learn(laid, guide, describe(error).text);
  }
}

async function workOn(laid: Laid, slot: Slot): Promise<void> {
  const { photo } = laid;
  const doing = unsearched(laid) ? 'find' : 'read';
  trayWork.value = [...trayWork.value, { photo, doing }];
  try {
    await (doing === 'find' ? find : read)(laid, slot);
  } finally {
    trayWork.value = trayWork.value.filter((work) => work.photo !== photo);
    slot.end();
  }
}

/** Not searched or not read, and nobody is at it. */
const left = (): Laid[] => doc.value.tray.filter((laid) => (unsearched(laid) || resultOf(laid) === undefined) && !trayWork.value.some(({ photo }) => photo === laid.photo));

/** Those who open files, waiting for a reader. */
let opener: ((slot: Slot) => void) | null = null;
let looking: ReturnType<typeof setTimeout> | undefined;

/** Gives work to those who may begin. */
function pump(): void {
  clearTimeout(looking);
  for (const lane of desk.lanes) {
    const all = left();
    const waiting = all.length + incoming.value.filter((i) => i.state === 'waiting').length;
    if (!mayBegin(lane, waiting)) continue;
    // Pairs are for the front.
    const at = ({ photo, polarised }: Laid) => (polarised ? 'front' : desk.laneOf(photo));
    const laid = all.find((l) => at(l) === lane) ?? all.find((l) => at(l) === null);
    // One that the other reader has decoded is its own, unless that has to rest.
    const other = all.find((l) => !l.polarised && !isTaken(at(l)!) && !mayBegin(at(l)!, waiting));
    const open = (lane === 'front' || doc.value.photo) && opener;
    if (laid) void workOn(laid, take(lane, pump));
    else if (open) {
      opener = null;
      open(take(lane, pump));
    } else if (other) void workOn(other, take(lane, pump));
  }
  if (opener || left().length) looking = setTimeout(pump, QUIET_MS);
  else if (!desk.lanes.some(isTaken)) rest();
}

/** A reader to open a file with; none when it is given up before. */
export function readerToOpen(giveUp: AbortSignal): Promise<Slot | null> {
  return new Promise((done) => {
    const stop = () => {
      if (opener === open) opener = null;
      done(null);
    };
    const open = (slot: Slot) => {
      giveUp.removeEventListener('abort', stop);
      done(slot);
    };
    giveUp.addEventListener('abort', stop);
    opener = open;
    pump();
  });
}

export function startBehind(): () => void {
  return effect(() => {
    void busy.value;
    // After those who may be busy in a moment.
    if (left().length) queueMicrotask(pump);
  });
}
