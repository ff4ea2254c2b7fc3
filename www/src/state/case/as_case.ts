/** What is on the desk as a case in the form of the file. Pure. */
import { CASE_VERSION, type Case, type KeptAs, type KeptPhoto } from '../../engine/case_types';
import type { OpenPhoto } from '../../engine/desk';
import type { Report } from '../../engine/types';
import type { Doc, Laid } from '../doc';
import { bookInUse, USUAL_LIMITS } from '../stains/stains_doc';
import { openPhotos } from '../tray/laid';

export interface Meta {
  /** What the user calls it. */
  readonly label?: string | undefined;
  /** ISO 8601 in UTC, like `changed`. */
  readonly created: string;
  readonly changed: string;
}

export interface Wanted {
  readonly meta: Meta;
  /** What becomes of photos whose bytes are here. */
  readonly photos: KeptAs;
  readonly reportOf: (photo: OpenPhoto) => Report | undefined;
}

export interface AsCase {
  readonly case: Case;
  /** Which photo of the case is which. */
  readonly of: ReadonlyMap<string, OpenPhoto>;
}

/** A copy stays one, and what is missing stays missing. */
function keptAs({ kept }: OpenPhoto, wanted: KeptAs): KeptAs {
  if (!kept || kept.scale === 1 || wanted === 'absent') return wanted;
  return kept.scale === 0 ? 'absent' : 'reduced';
}

const proposalOf = ({ restoration, target, cardSteps }: Laid['proposal']): Pick<KeptPhoto, 'proposal'> =>
  restoration || target || cardSteps ? { proposal: { ...(restoration && { restoration }), ...(target && { target }), ...(cardSteps && { card_steps: cardSteps }) } } : {};

export function caseOf(doc: Doc, { meta, photos, reportOf }: Wanted): AsCase {
  const of = new Map<string, OpenPhoto>();
  const put = (id: string, photo: OpenPhoto): string => (of.set(id, photo), id);
  const same = (photo: OpenPhoto) => ({ name: photo.name, kept: keptAs(photo, photos), ...(photo.kept?.sha256 && { sha256: photo.kept.sha256 }) });
  let shown: string | undefined;
  const kept = openPhotos(doc).flatMap(({ photo, polarised, scene, target, proposal, notes }, i): KeptPhoto[] => {
    const id = put(`photo-${i + 1}`, photo);
    if (photo === doc.photo) shown = id;
    const report = reportOf(photo);
    const partner = polarised && put(`${id}-polarised`, polarised);
    return [
      {
        id, role: 'plain', ...same(photo), scene, ...(partner && { partner }), ...(target && { target }), ...proposalOf(proposal),
        ...(notes.length > 0 && { notes: notes.map((note) => ({ ...note })) }), ...(report && { reading: { report } }),
      },
      ...(polarised && partner ? [{ id: partner, role: 'cross-polarised-partner' as const, ...same(polarised), scene: { card: null, regions: [] } }] : []),
    ];
  });
  const { stains } = doc;
  const book = bookInUse(stains);
  return {
    of,
    case: {
      version: CASE_VERSION, program: '', created: meta.created, changed: meta.changed, photos: kept,
      ...(meta.label && { label: meta.label }), ...(shown && { shown }), ...(doc.guide && { guide: doc.guide }),
      ...(book.swatches.length > 0 && { swatches: book }), ...(stains.work && { work: stains.work }),
      ...(stains.limits !== USUAL_LIMITS && { page: { limits: stains.limits } }),
    },
  };
}
