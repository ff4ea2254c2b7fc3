/** The page: a start without a photo; photo and reading with one. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { photo } from './state/desk';
import { openDropped } from './state/open';
import { patientOpen } from './state/patient/patient';
import { mode, side } from './state/ui';
import { attachPage } from './views/page_events';
import { Stage } from './stage/stage';
import { GuideSteps } from './views/guide_steps';
import { BusyBar, ProblemBox, Status, ToldBox } from './views/messages';
import { Modes } from './views/modes';
import { Panel } from './views/panel';
import { Start } from './views/start';
import { TopBar } from './views/top_bar';
import { later } from './views/later';
import { words } from './words';

const PlanView = later('PlanView', 'plan');
const TrayView = later('TrayView', 'photos');
const SwatchesView = later('SwatchesView', 'swatches');
const Dialogs = later('Dialogs');
const Tour = later('Tour');
const HelpBox = later('HelpBox');
const NewVersion = later('NewVersion');
const PatientView = later('PatientView');
const PracticeView = later('PracticeView', 'practice');

/** What the words at the top choose; without a photo there is no reading. */
function Shown() {
  const open = photo.value !== null;
  if (mode.value === 'photos') return <TrayView />;
  if (mode.value === 'plan') return <PlanView />;
  if (mode.value === 'swatches') return <SwatchesView />;
  if (mode.value === 'practice') return <PracticeView />;
  return open ? <Panel /> : <Start />;
}

/** Past bar and photo, for the keyboard. */
function Skip() {
  const to = () => document.getElementById(mode.value)?.focus();
  return (
    <a class="skip" href={`#${mode.value}`} onClick={(e) => (e.preventDefault(), (side.value = 'sheet'), setTimeout(to))}>
      {words.views.skipTo(words.modes.names[mode.value])}
    </a>
  );
}

export function App() {
  const dropping = useSignal(false);
  useEffect(() => attachPage({ open: (files) => void openDropped(files), dropping: (on) => (dropping.value = on) }), []);
  const open = photo.value !== null;
  const place = open ? `with-photo side-${side.value}` : mode.value === 'reading' ? '' : 'bench';
  return (
    <div class={`page mode-${mode.value} ${place}`}>
      {(open || mode.value !== 'reading') && <Skip />}
      <TopBar />
      {(open || mode.value !== 'reading') && <Modes />}
      {open && <GuideSteps />}
      <main class="sides-of-one">
        {open && <Stage />}
        <Shown />
      </main>
      <div class="messages">
        <ProblemBox />
        <ToldBox />
        <BusyBar />
        <Status />
        <NewVersion />
      </div>
      <Tour />
      <Dialogs />
      <HelpBox />
      {patientOpen.value && <PatientView />}
      {dropping.value && <div class="dropping">{words.drop}</div>}
    </div>
  );
}
