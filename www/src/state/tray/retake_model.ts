/** Asking for a new photo in words: from light checks to a letter. Pure, but for the language. */
import type { CheckCode, LightCheck, Severity } from '../../engine/types';
import { words } from '../../words';

interface Checked {
  readonly checks: readonly LightCheck[];
}

/** Whether there is anything to ask for. */
export const mayAsk = ({ checks }: Checked): boolean => checks.some((c) => c.severity !== 'note');

/** What is the matter, each thing once, at its gravest. */
export function faultsOf({ checks }: Checked): Record<'retake' | 'care', CheckCode[]> {
  const of = (severity: Severity) => [...new Set(checks.filter((c) => c.severity === severity).map((c) => c.code))];
  const retake = of('retake');
  return { retake, care: of('care').filter((code) => !retake.includes(code)) };
}

export function retakeText(report: Checked, photoName: string): string {
  const t = words.retake;
  const { retake, care } = faultsOf(report);
  const list = (title: string, lines: readonly string[]) => (lines.length ? [[title, ...lines.map((line) => `- ${line}`)].join('\n')] : []);
  const said = (codes: readonly CheckCode[]) => codes.map((code) => t.faults[code]);
  return [
    t.greeting,
    `${t.thanks(photoName)} ${retake.length ? t.cannot : t.could}`,
    ...list(t.because, said(retake)),
    ...list(retake.length ? t.also : t.helps, said(care)),
    ...list(t.goodTitle, t.good),
    t.end,
    t.regards,
  ].join('\n\n') + '\n';
}
