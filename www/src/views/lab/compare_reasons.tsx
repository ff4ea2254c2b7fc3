/** Why there are no numbers: said where they would stand, with a way on. */
import { compareProblem, sides, thirdPairs } from '../../state/compare/compare';
import { inOnePhoto, reasonOf, SIDES, type Sided } from '../../state/compare/compare_model';
import { photo } from '../../state/desk';
import { trayProblems } from '../../state/tray/reports';
import { showLaid } from '../../state/tray/show';
import { readingProblem } from '../../state/reading';
import { showMode } from '../../state/ui';
import { words } from '../../words';

export interface Said {
  side: Sided;
  text: string;
  /** Something is still going on: nothing has to be done. */
  waits: boolean;
}

function said(side: Sided): Said | null {
  const { photo: of, made } = side.of;
  const t = words.compare.reasons;
  const why = reasonOf(side.of.report, side.region.id);
  if (!why) return null;
  if (why.why === 'retake') return { side, text: words.names.said(made.scene, `${why.check.text} ${why.check.remedy}`), waits: false };
  if (why.why === 'no-reading') return { side, text: t['no-reading'], waits: false };
  const failed = of === photo.value ? readingProblem.value?.text : trayProblems.value.get(of.handle);
  return { side, text: failed === undefined ? t.waiting : t.unread(failed), waits: failed === undefined };
}

/** Of both, or of the photo that both are in once. */
export function reasonsNow(): Said[] {
  const [a, b] = SIDES.map((side) => sides.value[side]);
  if (!a || !b) return [];
  const [first, second] = [said(a), said(b)];
  const same = first && second && inOnePhoto(a, b) && first.text === second.text;
  return [first, same ? null : second].filter((s) => s !== null);
}

/** A photo with its reading. */
export async function lookAt({ of }: Sided): Promise<void> {
  if (of.photo !== photo.value) await showLaid(of.photo);
  showMode('reading');
}

export function Reasons({ reasons }: { reasons: readonly Said[] }) {
  const t = words.compare;
  return (
    <div class="reason compare-reason" role="status">
      {reasons.map((reason) => {
        const { of, region } = reason.side;
        const name = words.photo.shown(of.photo.name);
        return (
          <div key={`${of.photo.handle} ${region.id}`} class="because">
            {!reason.waits && <strong>{t.reasons.title(words.names.region(of.made.scene, region.id), name)}</strong>}
            <p>{reason.text}</p>
            {!reason.waits && (
              <button type="button" onClick={() => void lookAt(reason.side)}>
                {t.look(name)}
              </button>
            )}
          </div>
        );
      })}
      {reasons.length === 0 && <p>{thirdPairs.value.length === 0 ? t.noThird : `${t.failed} ${compareProblem.value}`}</p>}
    </div>
  );
}
