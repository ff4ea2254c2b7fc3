/** Practice: from which tab to which, what came of it, and the attempts so far. */
import { computed } from '@preact/signals';
import { desk } from '../../engine/instance';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { change } from '../desk';
import type { Attempt, Exercise, Side } from '../practice/exercise';
import { attemptsFromJson, merged } from '../practice/exercise_file';
import { inPhotoOfBase, isUnpainted, practiceRequest, taskZones } from '../practice/exercise_model';
import { chosen, exercise, sideOf, typed } from '../practice/sides';
import { report } from '../problems';
import { say, whileBusy } from '../status';
import { usableStains } from './book';
import { book, stains } from './work';

const put = (label: string, next: Partial<Exercise>, mergeKey: string | null = null): void =>
  change(label, { stains: { ...stains.value, practice: { ...exercise.value, ...next } } }, mergeKey);

export const sayWho = (who: string): void => put(words.practice.edits.who, { who }, 'practice who');

/** No stain to plan with. */
export const stainless = computed(() => usableStains(book.value).length === 0);

/** With no stain known there is an exercise, and no plan for it. */
export async function planExercise(): Promise<void> {
  const [base, target, before] = [sideOf('base'), sideOf('target'), stains.value];
  const zones = base && target ? taskZones(base, target) : [];
  if (!base || !target || zones.length === 0) return;
  const t = words.practice;
  try {
    const known = !stainless.value;
    const plan = known ? await whileBusy(t.busy, (signal) => desk.stains.plan(book.value, { zones, limits: before.limits }, { signal })) : null;
    if ((known && !plan) || stains.value !== before) return;
    const kept = ({ name, spots, photo }: Side): Side => ({ name, spots, ...(photo && { photo }) });
    put(t.edits.plan, { task: { base: kept(base), target: kept(target), plan, at: new Date().toISOString() } });
    chosen.value = {};
    const { got: _got, now: _now, ...task } = typed.value;
    typed.value = task;
    say(t.said.planned);
  } catch (error) {
    report(t.failed, error);
  }
}

/** Why what stands as the result is none, in words; empty when it can be one. */
export const notPainted = computed(() => {
  const [{ task }, got] = [exercise.value, sideOf('got')];
  if (!task || !got) return '';
  if (inPhotoOfBase(task, got)) return words.practice.samePhoto;
  return isUnpainted(task, got) ? words.practice.isBase : '';
});

/** What would be scored; `null` while it cannot be. */
export const toScore = computed(() => {
  const [{ task }, got, now] = [exercise.value, sideOf('got'), sideOf('now')];
  const request = task && got && now && !notPainted.value ? practiceRequest(task, got, now) : null;
  return request && request.zones.length > 0 ? request : null;
});

export async function scoreResult(): Promise<void> {
  const [{ task, who, attempts }, request, before] = [exercise.value, toScore.value, stains.value];
  if (!task || !request) return;
  const t = words.practice;
  try {
    const score = await whileBusy(t.busyScore, (signal) => desk.stains.scorePractice(request, { signal }));
    if (!score || stains.value !== before) return;
    const attempt: Attempt = { who: who.trim(), base: task.base.name, target: task.target.name, request, score, at: new Date().toISOString(), ...(task.at && { task: task.at }) };
    put(t.edits.score, { attempts: [...attempts, attempt] });
    say(engineWords(score.words));
  } catch (error) {
    report(t.scoreFailed, error);
  }
}

export function removeAttempt(at: number): void {
  put(words.practice.edits.remove, { attempts: exercise.value.attempts.filter((_, i) => i !== at) });
  say(words.practice.said.removed);
}

export async function addAttempts(file: Blob, name: string): Promise<void> {
  const t = words.practice;
  try {
    const { attempts } = exercise.value;
    const all = merged(attempts, attemptsFromJson(await file.text()));
    const added = all.length - attempts.length;
    if (added === 0) return say(t.said.nothingNew);
    put(t.edits.add(added), { attempts: all });
    say(t.said.added(added));
  } catch (error) {
    report(t.fileFailed(name), error);
  }
}
