/** Light checks, gravest first: told apart by a word and by how full the mark is. */
import type { Severity } from '../engine/types';
import { groupChecks, type CheckGroup } from '../state/check_groups';
import { scene } from '../state/desk';
import { searching } from '../state/find';
import { reading, readingPending } from '../state/reading';
import { words } from '../words';

const FILL: Record<Severity, string> = { retake: 'M1 1h14v14h-14z', care: 'M1 8h14v7h-14z', note: '' };

function Mark({ severity }: { severity: Severity }) {
  return (
    <svg class="check-mark" width={16} height={16} aria-hidden="true">
      <rect x={1} y={1} width={14} height={14} fill="none" stroke="currentColor" stroke-width={2} />
      <path d={FILL[severity]} fill="currentColor" />
    </svg>
  );
}

const said = (text: string): string => words.names.said(scene.value, text);

function Check({ group: { first, others } }: { group: CheckGroup }) {
  const t = words.sheet.checks;
  const names = others.map((c) => words.names.region(scene.value, c.region ?? '')).join(', ');
  return (
    <li class={`check ${first.severity}`}>
      <Mark severity={first.severity} />
      <strong>{t.severity[first.severity]}</strong>
      <div>
        {said(first.text)} <em>{said(first.remedy)}</em>
        {others.length > 0 && (
          <details>
            <summary>{t.alike(names)}</summary>
            {others.map((c) => (
              <p key={c.region}>{said(c.text)}</p>
            ))}
          </details>
        )}
      </div>
    </li>
  );
}

function List({ groups }: { groups: readonly CheckGroup[] }) {
  return (
    <ul>
      {groups.map((group) => (
        <Check key={group.first.code + (group.first.region ?? '') + group.first.severity} group={group} />
      ))}
    </ul>
  );
}

/** Nothing is said for the photo before what lies in it was looked at. */
const judged = (): boolean => !searching.value && !readingPending.value && scene.value.card !== null && scene.value.regions.length > 0;

/** All findings but that the card is still to be marked: the steps above say so. */
export function Checks() {
  const t = words.sheet.checks;
  const report = reading.value?.report;
  if (!report) return null;
  const unmarked = !scene.value.card;
  const groups = groupChecks(report.checks.filter((c) => !(unmarked && c.code === 'card-missing')));
  const grave = groups.filter(({ first }) => first.severity !== 'note');
  // What comes of the first would only blur it.
  const retake = grave[0]?.first.severity === 'retake';
  const notes = groups.filter(({ first }) => first.severity === 'note');
  return (
    <section class="checks" aria-label={t.title}>
      {grave.length === 0 && judged() && <p class="fine">{t.fine}</p>}
      {grave.length > 0 && <List groups={retake ? grave.slice(0, 1) : grave} />}
      {retake && grave.length > 1 && (
        <details class="notes">
          <summary>{t.further(grave.length - 1)}</summary>
          <List groups={grave.slice(1)} />
        </details>
      )}
      {notes.length > 0 && (
        <details class="notes">
          <summary>{t.notes(notes.length)}</summary>
          <List groups={notes} />
        </details>
      )}
    </section>
  );
}
