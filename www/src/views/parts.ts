/** What comes after the first screen, in one file: fetched by `later`. */
import '../words/later';

export { beginWith } from '../state/case/split';
export { openCaseFile } from '../state/case/open_case';
export { openTable } from '../state/exports/import_guide';
export { addPhotos } from '../state/tray/add';
export { startBehind } from '../state/tray/behind';
export { startSharpening } from '../state/sharpen';
export { warm } from '../state/warm';
export * as saving from './exports/save';
export { NotePins } from '../stage/note_pins';
export { CasesAtStart } from './case/at_start';
export { Dialogs } from './dialogs';
export { OpenedFile } from './case/opened_file';
export { HelpBox } from './help_box';
export { Notes } from './lab/notes';
export { PrintedPhoto } from './lab/printed_photo';
export { RetakeOfReading } from './lab/retake';
export { TabsCheck } from './lab/tabs_check';
export { TrayView } from './lab/tray';
export { PatientView } from './patient/patient';
export { PlanView } from './plan/plan';
export { PracticeView } from './practice/practice';
export { NewVersion } from './privacy_version';
export { SwatchesView } from './swatches/swatches';
export { Tour } from './tour';
export { Undrawn } from './undrawn';
