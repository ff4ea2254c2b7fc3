/** Errors into words that say what to do. */
import { AbsentError } from '../engine/absent';
import { EngineError } from '../engine/types';
import { words } from '../words';
import { engineWords } from '../words/engine';
import { problem } from './status';
import { FileError } from './scene_file';

/** Shows an error. `context` says what was being done, `also` what else can be done about it,
 * `fileAdvice` what fits a file of its kind. */
export function report(context: string, error: unknown, also = '', fileAdvice = words.errors.fileAdvice): void {
  const found = describe(error, fileAdvice);
  problem.value = { title: context, text: found.text, advice: [found.advice, also].filter(Boolean).join(' ') };
}

/** A part of the page did not come: what browsers say of it is no word for people. */
export const partMissing = (): void => void (problem.value = { title: words.errors.partFailed, text: '', advice: '' });

/** What happened and what to do about it. */
export function describe(error: unknown, fileAdvice = words.errors.fileAdvice): { text: string; advice: string } {
  if (error instanceof EngineError && error.fault) {
    const { faults, faultAdvice, internalAdvice } = words.errors;
    return { text: faults[error.fault], advice: error.fault === 'broken' ? internalAdvice : faultAdvice.texts[error.fault] };
  }
  // The engine's own words say what to do; only after its own fault the page must.
  if (error instanceof AbsentError) return { text: words.errors.absent, advice: words.errors.absentAdvice };
  if (error instanceof EngineError) return { text: engineWords(error.message), advice: error.kind === 'internal' ? words.errors.internalAdvice : '' };
  if (error instanceof FileError) {
    const part = words.errors.fileParts[error.message as keyof typeof words.errors.fileParts];
    return { text: part ?? words.errors.fileParts.json, advice: fileAdvice };
  }
  return { text: error instanceof Error ? error.message : String(error), advice: words.errors.internalAdvice };
}
