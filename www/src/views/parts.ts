/** What comes after the first screen, in one file: fetched by `later`. */
export { NotePins } from '../stage/note_pins';
export { Dialogs } from './dialogs';
export { HelpBox } from './help_box';
export { Notes } from './lab/notes';
export { PrintedPhoto } from './lab/printed_photo';
export { RetakeOfReading } from './lab/retake';
export { TabsCheck } from './lab/tabs_check';
export { TrayView } from './lab/tray';
export { PatientView } from './patient/patient';
export { PlanView } from './plan/plan';
export { PracticeView } from './practice/practice';
export { SwatchesView } from './swatches/swatches';
export { Tour } from './tour';
