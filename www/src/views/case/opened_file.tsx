/** What is to be said of the case file that was opened: first of all, whether the same numbers came out. */
import { fixed, momentText, shortest } from '../../charts/format';
import type { PhotoVerification } from '../../engine/case_types';
import { openedFile, openedRead, verification } from '../../state/case/opened';
import { setDepth } from '../../state/depths';
import { photo } from '../../state/desk';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { Depth } from '../depth';
import { useEffect, useRef } from 'preact/hooks';

/** Numbers as they are; a longer thing by its beginning. */
function brief(value: unknown): string {
  if (value === null || value === undefined) return words.caseFile.nothingThere;
  const text = typeof value === 'number' ? shortest(value, 3) : typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}

function Where({ found: { name, outcome, reasons = [], differences = [], further, largest_delta_e_00 } }: { found: PhotoVerification }) {
  const t = words.caseFile;
  return (
    <li>
      <p>
        <strong>{words.photo.shown(name)}</strong>: {t.ofPhoto.texts[outcome]}
      </p>
      {reasons.map((r) => (
        <p key={r.text}>{engineWords(r.text)}</p>
      ))}
      {outcome === 'different' && largest_delta_e_00 !== undefined && largest_delta_e_00 >= 0.005 && <p>{t.largest(fixed(largest_delta_e_00, 2))}</p>}
      {differences.length > 0 && (
        <ul class="differing">
          {differences.slice(0, 12).map((d) => (
            <li key={d.place}>{t.differs(d.place, brief(d.kept), brief(d.now))}</li>
          ))}
          {differences.length - 12 + further > 0 && <li>{t.further(Math.max(0, differences.length - 12) + further)}</li>}
        </ul>
      )}
    </li>
  );
}

/** Of the photo that is looked at, should it not be here. */
function Absent() {
  const kept = photo.value?.kept;
  if (!kept || kept.scale === 1) return null;
  return <p class="absent-line">{kept.scale === 0 ? words.caseFile.absentLine : words.caseFile.reducedLine}</p>;
}

export function OpenedFile() {
  const t = words.caseFile;
  const file = openedFile.value;
  const root = useRef<HTMLElement>(null);
  const { outcome: worst } = verification.value;
  // Where the panel was scrolled to in another case, this is not seen.
  useEffect(() => root.current?.scrollIntoView({ block: 'nearest' }), [file]);
  useEffect(() => {
    if (worst === 'different') setDepth('verified', true);
  }, [worst]);
  if (!file || openedRead.value) return <Absent />;
  const { photos, of, outcome } = verification.value;
  const told = photos.filter((p) => p.outcome !== 'same');
  return (
    <section class={`opened-file ${worst ?? ''}`} ref={root} aria-label={t.title}>
      <div class="opened-head">
        <p role="status" class="outcome">
          <strong>{outcome ? t.outcome.texts[outcome] : of > 0 ? t.checking(photos.length, of) : t.title}</strong>
        </p>
        <button type="button" onClick={() => (openedRead.value = true)}>{t.dismiss}</button>
      </div>
      <Absent />
      {worst === 'different' && <p>{t.nowShown}</p>}
      <p class="hint">
        {t.from(file.case.label || file.name, momentText(new Date(file.case.changed)), file.case.program)} {t.asOpened}
      </p>
      {file.readOnly && <p>{t.readOnly}</p>}
      {file.notes.map((note) => (
        <p key={note.text}>
          {engineWords(note.text)} {engineWords(note.remedy)}
        </p>
      ))}
      {file.unreadable.map(({ name, why }) => (
        <p key={name}>{t.unreadable(name, why)}</p>
      ))}
      {file.leftOut.map(({ part, why }) => (
        <p key={part}>
          {t.leftOut[part]} {why}
        </p>
      ))}
      {told.length > 0 && (
        <Depth name="verified" title={outcome === 'different' ? t.where : t.each}>
          <ul>
            {told.map((found) => (
              <Where key={found.photo} found={found} />
            ))}
          </ul>
        </Depth>
      )}
    </section>
  );
}
