/** One open photo: its picture, what is being done with it, what is marked, what speaks against it. */
import { useSignal } from '@preact/signals';
import { useEffect, useId } from 'preact/hooks';
import type { OpenPhoto } from '../../engine/desk';
import { photo as lookedPhoto } from '../../state/desk';
import type { Laid } from '../../state/doc';
import { searching } from '../../state/find';
import { readingProblem } from '../../state/reading';
import { mayAsk } from '../../state/tray/retake_model';
import { gravest, markedIn } from '../../state/tray/row_model';
import { reportOf } from '../../state/tray/report_of';
import { trayWork } from '../../state/tray/behind';
import { trayProblems } from '../../state/tray/reports';
import { showLaid, takeOff } from '../../state/tray/show';
import { thumbs } from '../../state/tray/thumbs';
import type { LightCheck, Scene } from '../../engine/types';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { focusOn } from '../focus_on';
import { Pixels } from '../pixels';
import { RetakeRequest } from './retake';

function Thumb({ photo }: { photo: OpenPhoto }) {
  const picture = thumbs.of(photo);
  useEffect(() => thumbs.want(photo), [photo]);
  return <div class="thumb" aria-hidden="true">{picture && <Pixels picture={picture} />}</div>;
}

/** What is being done with it, or could not be; nothing once it is read. */
function stateOf({ photo }: Laid, read: boolean): string {
  const t = words.tray.state;
  const why = trayProblems.value.get(photo.handle);
  if (why !== undefined) return t.unread(why);
  const work = trayWork.value.find((w) => w.photo === photo);
  return work ? t[work.doing] : read ? '' : t.queued;
}

function lookedState(read: boolean): string {
  const t = words.tray.state;
  const failed = readingProblem.value;
  return [t.looked, searching.value ? t.find : failed ? t.unread(failed.text || failed.title) : read ? '' : t.read].filter(Boolean).join(' ');
}

function Check({ scene, checks }: { scene: Scene; checks: readonly LightCheck[] }) {
  const t = words.tray.check;
  const found = gravest(checks);
  if (!found) return <p class="tray-check">{t.none}</p>;
  const { first, more } = found;
  return (
    <p class={`tray-check tray-${first.severity}`}>
      {first.code === 'card-missing' ? t.noCard : <><strong>{t[first.severity === 'retake' ? 'retake' : 'care']}</strong> {words.names.said(scene, first.text)} <em>{engineWords(first.remedy)}</em></>}
      {more > 0 && ` ${t.more(more)}`}
    </p>
  );
}

export function PhotoRow({ laid }: { laid: Laid }) {
  const t = words.tray;
  const { photo, scene } = laid;
  const id = useId();
  const asking = useSignal(false);
  const looked = photo === lookedPhoto.value;
  const report = reportOf(photo);
  const name = words.photo.shown(photo.name);
  const { card, tabs, teeth } = markedIn(scene);
  const state = looked ? lookedState(report !== undefined) : stateOf(laid, report !== undefined);
  const may = report !== undefined && mayAsk(report);
  const off = () => void takeOff(photo).then(() => focusOn('photos'));
  return (
    <li class={looked ? 'tray-row looked' : 'tray-row'} aria-current={looked}>
      <Thumb photo={photo} />
      <div class="tray-said">
        <h2>{name}</h2>
        {state && <p>{state}</p>}
        {report && <p>{words.found.what(card, tabs, teeth) || t.nothingFound}</p>}
      </div>
      {report && <Check scene={scene} checks={report.checks} />}
      <div class="tray-acts">
        {!looked && <button type="button" aria-label={t.showLong(name)} onClick={() => void showLaid(photo)}>{t.show}</button>}
        <button type="button" aria-label={t.offLong(name)} onClick={off}>{t.off1}</button>
        {may && <button type="button" aria-label={t.askLong(name)} aria-expanded={asking.value} aria-controls={id} onClick={() => (asking.value = !asking.value)}>{t.ask}</button>}
      </div>
      <div id={id} hidden={!may || !asking.value}>{may && asking.value && <RetakeRequest report={report} photoName={name} />}</div>
    </li>
  );
}
