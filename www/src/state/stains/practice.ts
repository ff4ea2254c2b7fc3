/** Practice: from which tab to which, what came of it, and the attempts so far. */
import { computed } from '@preact/signals';
import { desk } from '../../engine/instance';
import { words } from '../../words';
import { change } from '../desk';
import type { Attempt, Exercise, Side } from '../practice/exercise';
import { attemptsFromJson, merged } from '../practice/exercise_file';
import { isUnpainted, practiceRequest, taskZones } from '../practice/exercise_model';
import { chosen, exercise, sideOf } from '../practice/sides';
import { report } from '../problems';
import { say, whileBusy } from '../status';
import { book, stains } from './work';

const put = (label: string, next: Partial<Exercise>, mergeKey: string | null = null): void =>
  change(label, { stains: { ...stains.value, practice: { ...exercise.value, ...next } } }, mergeKey);

export const sayWho = (who: string): void => put(words.practice.edits.who, { who }, 'practice who');

/** With no stain known there is an exercise, and no plan for it. */
export async function planExercise(): Promise<void> {
  const [base, target, before] = [sideOf('base'), sideOf('target'), stains.value];
  const zones = base && target ? taskZones(base, target) : [];
  if (!base || !target || zones.length === 0) return;
  const t = words.practice;
  try {
    const known = book.value.swatches.length > 0;
    const plan = known ? await whileBusy(t.busy, (signal) => desk.stains.plan(book.value, { zones, limits: before.limits }, { signal })) : null;
    if ((known && !plan) || stains.value !== before) return;
    const kept = ({ name, spots }: Side): Side => ({ name, spots });
    put(t.edits.plan, { task: { base: kept(base), target: kept(target), plan } });
    chosen.value = {};
    say(t.said.planned);
  } catch (error) {
    report(t.failed, error);
  }
}

/** The result as it stands is the base itself. */
export const notPainted = computed(() => {
  const [{ task }, got] = [exercise.value, sideOf('got')];
  return task !== null && got !== null && isUnpainted(task, got);
});

export async function scoreResult(): Promise<void> {
  const [{ task, who, attempts }, got, now, before] = [exercise.value, sideOf('got'), sideOf('now'), stains.value];
  const request = task && got && now ? practiceRequest(task, got, now) : null;
  if (!task || !request || request.zones.length === 0) return;
  const t = words.practice;
  try {
    const score = await whileBusy(t.busyScore, (signal) => desk.stains.scorePractice(request, { signal }));
    if (!score || stains.value !== before) return;
    const attempt: Attempt = { who: who.trim(), base: task.base.name, target: task.target.name, request, score, at: new Date().toISOString() };
    put(t.edits.score, { attempts: [...attempts, attempt] });
    say(score.words);
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
