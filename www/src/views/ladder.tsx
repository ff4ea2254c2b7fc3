/** The tabs by difference: a lane per zone. */
import { fixed } from '../charts/format';
import { LadderAxis, LadderLane } from '../charts/ladder_lane';
import { ladderEnd, shownRungs } from '../charts/ladder_layout';
import { ZONES, type Ladder, type Report, type Rung } from '../engine/types';
import { scene } from '../state/desk';
import { reading } from '../state/reading';
import { photoRetake, sheet } from '../state/sheet';
import { ladderOfZone, retakeOf } from '../state/sheet_model';
import { ladderOf, ladderZone } from '../state/ui';
import { words } from '../words';
import { Depth } from './depth';
import { Term } from './help_term';
import { LadderList } from './ladder_list';
import { useSize } from './use_size';

const GUTTER_PX = 104;

function Lanes({ ladders }: { ladders: readonly Ladder[] }) {
  const { ref, width } = useSize<HTMLDivElement>();
  const t = words.sheet.ladder;
  const end = ladderEnd(ladders);
  const lane = Math.max(width - GUTTER_PX, 160);
  return (
    <div class="lanes" ref={ref}>
      {width > 0 && (
        <>
          <div class="lane-row axis">
            <div class="lane-name">
              <Term name="deltaE">{words.sheet.deltaE}</Term>
            </div>
            <LadderAxis end={end} width={lane} seen={t.seen} accept={t.accept} />
          </div>
          {ladders.map(({ zone, tabs, note }) => (
            <button
              type="button"
              key={zone}
              class="lane-row"
              aria-pressed={zone === ladderZone.value}
              onClick={() => (ladderZone.value = zone)}
            >
              <span class="lane-name">
                <span>{words.names.zoneShort[zone]}</span>
                {tabs[0] && <strong>{words.names.tab(scene.value, tabs[0].name)}</strong>}
                {tabs[0] && <span class="number">{fixed(tabs[0].delta_e_00)}</span>}
              </span>
              <LadderLane
                tabs={tabs.map(shown)}
                end={end}
                width={lane}
                label={`${t.lane(words.names.zone[zone])}. ${shownRungs(tabs).map(shown).map((r) => t.laneItem(r.name, fixed(r.delta_e_00))).join(', ')}`}
              />
              {note && <span class="lane-note">{words.names.said(scene.value, note)}</span>}
            </button>
          ))}
        </>
      )}
    </div>
  );
}

/** Tabs without a name bear the one they have on the photo. */
const shown = (rung: Rung): Rung => ({ ...rung, name: words.names.tab(scene.value, rung.name) });

const subjectsOf = (report: Report): string[] =>
  [...new Set(report.ladders.map((l) => l.region))].filter((id) => !retakeOf(report.checks, id));

export function LadderSection() {
  const report = reading.value?.report;
  if (!report || photoRetake.value) return null;
  const subjects = subjectsOf(report);
  const subject = subjects.find((id) => id === ladderOf.value) ?? subjects.find((id) => id === sheet.value?.subject?.id) ?? subjects[0];
  const ladders = ZONES.map((zone) => ladderOfZone(report, subject, zone)).filter((l) => l !== undefined);
  const listed = ladders.find((l) => l.zone === ladderZone.value) ?? ladders[0];
  if (!listed) return null;
  const t = words.sheet.ladder;
  const published = ladders.some((l) => l.tabs.some((r) => r.basis === 'published'));
  return (
    <Depth name="tabs" title={t.title} gist={words.names.region(scene.value, subject ?? '')}>
      <div class="chips" role="group" aria-label={t.of}>
        <span>{t.of}</span>
        {subjects.map((id) => (
          <button type="button" key={id} aria-pressed={id === subject} onClick={() => (ladderOf.value = id)}>
            {words.names.region(scene.value, id)}
          </button>
        ))}
      </div>
      <Lanes ladders={ladders} />
      <p class="legend">
        <span class="dot in-photo" /> {t.legendIn} <span class="dot" /> {t.legendOut}
        {published && <em> {t.publishedNote}</em>}
      </p>
      <LadderList ladder={listed} />
    </Depth>
  );
}
