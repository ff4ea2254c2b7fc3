/** Everything that is said about the photo: checks, sheet, ladder, numbers, outlines. */
import { momentText } from '../charts/format';
import { photo, scene } from '../state/desk';
import { reading, readingPending, readingProblem, readOnceMore } from '../state/reading';
import { mayAsk } from '../state/tray/retake_model';
import { cardMissing, nothingTrusted, photoRetake, sheet } from '../state/sheet';
import { shapesOf } from '../state/shapes';
import { words } from '../words';
import { pickPhoto, takePhoto } from './actions';
import { Advice } from './advice';
import { Decide, NextBar } from './decide';
import { Depth } from './depth';
import { Checks } from './checks';
import { Evenness } from './evenness';
import { Facts } from './facts';
import { LadderSection } from './ladder';
import { later } from './later';
import { NumbersTable } from './numbers';
import { OwnTabs } from './own_tabs';
import { AxisSheet } from './sheet/axis_sheet';
import { PolarisedSwitch, StandsOn } from './trust';
import { GlareTable, PairNote } from './pair';
import { ShapeEditor, ShapeList } from './shape_editor';

const TabsCheck = later('TabsCheck');
const Notes = later('Notes');
const OpenedFile = later('OpenedFile');
const PrintedPhoto = later('PrintedPhoto');
const RetakeOfReading = later('RetakeOfReading');

/** Why there is no sheet: it could not be read, must not be trusted, or its card gave nothing. */
function reason(): { title: string; text: string } | null {
  const t = words.sheet;
  const failed = readingProblem.value;
  if (failed) return { title: failed.title, text: `${failed.text} ${failed.advice}` };
  if (photoRetake.value || nothingTrusted.value) return { title: t.checks.retakeTitle, text: t.checks.retakeWhy };
  const report = reading.value?.report;
  const unread = report && !cardMissing.value && report.scene.regions.length > 0 && report.readings.length === 0;
  return unread ? { title: t.unread, text: t.checks.retakeWhy } : null;
}

function Result() {
  const why = reason();
  if (why) {
    return (
      <div class="reason">
        <strong>{why.title}</strong>
        <p>{why.text}</p>
        <div class="now-buttons">
          {readingProblem.value?.again && (
            <button type="button" onClick={() => readOnceMore.value++}>
              {words.errors.once}
            </button>
          )}
          <button type="button" onClick={pickPhoto}>
            {words.menu.open}
          </button>
          <button type="button" onClick={takePhoto}>
            {words.menu.camera}
          </button>
        </div>
      </div>
    );
  }
  const empty = cardMissing.value || !sheet.value?.pictures.length || !reading.value?.report.readings.length;
  return empty ? <p class="waiting">{words.sheet.waiting}</p> : <AxisSheet />;
}

export function Panel() {
  if (!photo.value) return null;
  return (
    <section class="panel" id="reading" tabIndex={-1} aria-label={words.views.sheet} aria-busy={readingPending.value}>
      <p class="print-only">{words.sheet.printed(words.photo.shown(photo.value.name), momentText(new Date()))}</p>
      <PrintedPhoto />
      <OpenedFile />
      <Checks />
      <Result />
      <NextBar />
      {reading.value && mayAsk(reading.value.report) && (
        <Depth name="retake" title={words.retake.title}>
          <RetakeOfReading />
        </Depth>
      )}
      {reading.value && <GlareTable report={reading.value.report} />}
      <PairNote />
      <Decide />
      <Advice />
      <LadderSection />
      <Evenness />
      <StandsOn />
      <TabsCheck />
      <Notes />
      <NumbersTable />
      <Depth name="outlines" title={words.shape.depth} gist={words.shape.depthGist(shapesOf(scene.value).length)}>
        <ShapeList />
        <ShapeEditor />
        <PolarisedSwitch />
        <OwnTabs />
        <Facts />
      </Depth>
      <p class="disclaimer">{words.sheet.disclaimer}</p>
    </section>
  );
}
