/** The search for card, tabs and teeth when a photo was opened, and again when it is asked for. */
import { signal } from '@preact/signals';
import type { OpenPhoto } from '../engine/desk';
import { desk } from '../engine/instance';
import type { Found } from '../engine/types';
import { words } from '../words';
import { change, doc, photo, scene } from './desk';
import { nextStep, type Next } from './flow';
import { withFound } from './found';
import { resumeNaming } from './naming';
import { noteGuide } from './remarks';
import { report } from './problems';
import { whileBusy } from './status';
import { tool, type Tool } from './ui';

/** True while the search of the open photo runs. */
export const searching = signal(false);
let newest = 0;

/** Another scene came: what the search finds is not wanted any more. */
export function dropSearch(): void {
  newest++;
  searching.value = false;
  noteGuide('');
  resumeNaming();
}

export async function search(open: OpenPhoto): Promise<void> {
  dropSearch();
  // There is nothing to look at.
  if (open.kept) return;
  const mine = newest;
  const wanted = () => mine === newest && photo.value === open;
  searching.value = true;
  try {
    const found = await whileBusy(words.busy.finding, (signal, onPhase) => desk.find(open, { signal, onPhase }));
    if (!wanted()) return;
    if (found) put(found);
    else noteGuide(words.found.cancelled);
  } catch (error) {
    if (wanted()) report(words.errors.findFailed, error, words.errors.findByHand);
  } finally {
    if (mine === newest) searching.value = false;
    if (wanted()) takeMissing();
  }
}

export const searchAgain = (): void => {
  if (photo.value) void search(photo.value);
};

function put(found: Found): void {
  const before = scene.value;
  const { scene: next, proposal, card, tabs, teeth } = withFound(before, found);
  const t = words.found;
  if (next !== before) change(words.edits.find, { scene: next, proposal: { ...doc.value.proposal, ...proposal } });
  const any = before.regions.length > 0 || before.card !== null;
  const what = t.what(card, tabs, teeth);
  if (!what) return noteGuide(any ? t.nothingMore : t.nothing);
  const steps = proposal.cardSteps ? t.steps(proposal.cardSteps.length) : '';
  noteGuide([what, steps, t.mend].filter(Boolean).join(' '), before);
}

const TOOL_OF: Partial<Record<Next, Tool>> = { card: 'card', tabs: 'tab', teeth: 'tooth' };

/** The step that is missing is in hand, unless the user has taken another already. */
export function takeMissing(): void {
  if (tool.value === 'look') tool.value = TOOL_OF[nextStep(doc.value)] ?? 'look';
}
