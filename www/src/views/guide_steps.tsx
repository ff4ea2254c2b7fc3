/** The guided steps: where one is, what to do next, one obvious thing at a time. */
import { doc, photo } from '../state/desk';
import { searching } from '../state/find';
import { nameless, namingPutOff } from '../state/naming';
import { guideNote } from '../state/remarks';
import { pendingRestoration } from '../state/roles';
import { nothingTrusted, photoRetake } from '../state/sheet';
import { flowSteps, nextStep, type StepName } from '../state/flow';
import { hold, holdStep, isCurrent, placeByNumbers } from '../state/steps';
import { side, tool, type Tool } from '../state/ui';
import { words } from '../words';
import { pickPhoto } from './actions';
import { Against, RestorationQuestion } from './found_question';
import { showEditor } from './shape_editor';
import { TabNaming } from './tab_naming';
import { TabPrompt } from './tab_names';

/** The one button that goes on from here. */
function Onward({ held }: { held: Exclude<Tool, 'look'> }) {
  const t = words.flow;
  const to: Record<Exclude<Tool, 'look'>, [string, Tool] | null> = {
    card: null,
    step: [t.finished, 'look'],
    second: [t.finished, 'look'],
    tab: [nextStep(doc.value) === 'tabs' ? t.tab.skip : t.tab.done, 'tooth'],
    tooth: [t.tooth.done, 'restoration'],
    restoration: [t.finished, 'look'],
  };
  const onward = to[held];
  if (!onward) return null;
  const [text, next] = onward;
  // Before anything is marked the photo is what asks to be tapped, not this.
  const marked = held === 'step' || held === 'second' || doc.value.scene.regions.some((r) => r.kind === held) || (held === 'restoration' && nextStep(doc.value) === 'reading');
  return (
    <button type="button" class={marked ? 'primary' : undefined} onClick={() => hold(next)}>
      {text}
    </button>
  );
}

function Marking({ held }: { held: Exclude<Tool, 'look'> }) {
  const t = words.flow;
  return (
    <div class="now">
      {held === 'tab' ? <TabPrompt /> : <p class="say">{t[held].say}</p>}
      <p class="hint">{t[held].hint}</p>
      <div class="now-buttons">
        <Onward held={held} />
        <button type="button" title={t.byNumbersLong} onClick={() => placeByNumbers() && showEditor()}>
          {t.byNumbers}
        </button>
      </div>
    </div>
  );
}

/** What there is still to say about what was found. */
const asking = (): 'search' | 'restoration' | 'tabs' | null => {
  if (searching.value) return 'search';
  // What cannot be read is not asked about.
  if (nextStep(doc.value) !== 'reading' || photoRetake.value || nothingTrusted.value) return null;
  if (pendingRestoration(doc.value)) return 'restoration';
  return nameless.value.length > 0 && !namingPutOff.value ? 'tabs' : null;
};

function Question({ about }: { about: 'search' | 'restoration' | 'tabs' }) {
  return (
    <div class="now">
      {about === 'search' && <p class="say">{words.found.searching}</p>}
      {about === 'restoration' && <RestorationQuestion />}
      {about === 'tabs' && <TabNaming />}
    </div>
  );
}

function Looking() {
  const t = words.flow.look;
  const ready = nextStep(doc.value) === 'reading';
  return (
    <div class="now">
      <Against />
      {!(ready && guideNote.value) && <p class={ready ? 'hint ready' : 'say'}>{ready ? t.ready : t.say}</p>}
      {ready && (
        <button type="button" class="primary to-reading" onClick={() => (side.value = 'sheet')}>
          {words.flow.toReading}
        </button>
      )}
    </div>
  );
}

export function GuideSteps() {
  const t = words.flow;
  const held = tool.value;
  if (!photo.value) return null;
  const act = (step: StepName) => (step === 'photo' ? pickPhoto() : holdStep(step));
  const about = held === 'look' ? asking() : null;
  const complete = held === 'look' && !about && nextStep(doc.value) === 'reading';
  return (
    <nav class={complete ? 'guide complete' : 'guide'} aria-label={t.title}>
      <ol>
        {flowSteps(doc.value).map((step, i) => (
          <li key={step.name}>
            <button
              type="button"
              class={step.done ? 'step done' : 'step'}
              aria-current={isCurrent(step.name, held) ? 'step' : undefined}
              onClick={() => act(step.name)}
            >
              <span class="number">{i + 1}</span>
              <span class="step-name">{t.steps[step.name]}</span>
              <span class="state">{step.done ? t.count(step.count) : ''}</span>
            </button>
          </li>
        ))}
      </ol>
      {guideNote.value && <p class="guide-note">{guideNote.value}</p>}
      {held !== 'look' ? <Marking held={held} /> : about ? <Question about={about} /> : <Looking />}
    </nav>
  );
}
